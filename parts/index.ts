// The library's door: whatever the command line and the viewer use comes through here.

export { type Finding, SEVERITIES, type Severity } from './checks/finding.js';
export { checkMachine } from './checks/index.js';
export type { Prediction, Quantity } from './field/predict.js';
export { changedValues, type ValueChange } from './machine/difference.js';
export type { Machine } from './machine/machine.js';
export { formatProblem, type Problem } from './machine/problem.js';
export {
  type Assumed,
  type MachineValues,
  readMachineFile,
} from './machine/read.js';
export { resolveMachine } from './machine/resolve.js';
export { machineFileSchema } from './machine/schema.js';
export { commentedTemplate, inBlocks, keysTable } from './machine/template.js';
export { ordersFor, PARTS, type PartOrder } from './printed/catalog.js';
export type { Dimension, Dimensions } from './printed/identity.js';
export type { Stated } from './printed/part.js';
export { buildSheet } from './sheets/build-sheet.js';
export { CAUTIONS, DISCHARGE } from './sheets/cautions.js';
export {
  compareOrders,
  type DimensionChange,
  describeChange,
  differences,
  LEDGER_FILE,
  type Ledger,
  type LedgerRow,
  ledgerText,
  type MadePart,
  madePart,
  nextLedger,
  type PartChange,
  parseLedger,
  showDimension,
  unitShown,
  type Verdict,
} from './sheets/ledger.js';
export { proveStl } from './sheets/proof.js';
export { openWorkshop, type Workshop } from './sheets/workshop.js';
export {
  lookUp,
  STOCK_KINDS,
  type StockEntry,
  UnknownStockError,
} from './stock/lookup.js';
export { nearest } from './stock/nearest.js';
export { plastic } from './stock/plastics.js';
