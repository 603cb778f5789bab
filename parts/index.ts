// The library's door: whatever the command line and the viewer use comes through here.

export { byGravity, type Finding, SEVERITIES, type Severity, type Trial } from './checks/finding.js';
export { checkMachine } from './checks/index.js';
export { WayFinder } from './checks/insulation.js';
export { fitsBed } from './checks/print-fit.js';
export { estimatePart, type Printability, printability } from './checks/printability.js';
export { type ColumnPotential, columnPotential } from './field/column-potential.js';
export type { Bound } from './field/machine-problem.js';
export { type FieldPicture, fieldPicture } from './field/picture.js';
export type { Prediction, Quantity } from './field/predict.js';
export { type Calibrated, calibrate, calibrationValues } from './machine/calibrate.js';
export { couponFeatures, couponSizes } from './machine/coupon.js';
export { couponListText, holdsReadings, readCouponList } from './machine/coupon-list.js';
export { MACHINE_FILE } from './machine/declarations.js';
export {
  bareUnitOf,
  type Declaration,
  type Group,
  type Leaf,
  leavesOf,
  type QuantityLeaf,
} from './machine/declare.js';
export { changedValues, type ValueChange } from './machine/difference.js';
export { type WrittenValue, withValue, withWritten, writtenValues } from './machine/edit.js';
export type { Fit } from './machine/fits.js';
export { type KeyNote, keyNotes } from './machine/key-notes.js';
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
export {
  convert,
  DECIMAL_TEXT,
  LENGTH_UNITS,
  type LengthUnit,
  parseQuantity,
  short,
} from './machine/units.js';
export { assembly, type Piece } from './printed/assembly.js';
export { couponOrder, isTool, ordersFor, PARTS, type PartOrder } from './printed/catalog.js';
export { type FitPlace, fitPlaces, fitPointsInCut } from './printed/fit-places.js';
export type { Dimension, Dimensions } from './printed/identity.js';
export { type MetalPiece, metalware } from './printed/metalware.js';
export type { Move, Placed, Stated } from './printed/part.js';
export type { PrintEstimate } from './printed/print-time.js';
export { placeOnWay, type Stage, stagesOf } from './printed/way-in.js';
export { buildSheet } from './sheets/build-sheet.js';
export { CAUTIONS, DISCHARGE } from './sheets/cautions.js';
export { type FindingNumbers, findingNumbers, fitInWords, number, QUANTITIES } from './sheets/in-words.js';
export {
  compareOrders,
  type DimensionChange,
  describeChange,
  differences,
  isToPrint,
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
  stlFile,
  unitShown,
  type Verdict,
} from './sheets/ledger.js';
export { massOf } from './sheets/mass.js';
export { hoursText, printCells, printTotal } from './sheets/print-table.js';
export { printabilityOfStl } from './sheets/printed-file.js';
export { proveStl } from './sheets/proof.js';
export type {
  FileGone,
  FileState,
  FileWord,
  LedgerWord,
  SaveAnswer,
  SaveOrder,
  Start,
} from './sheets/view-start.js';
export { openWorkshop, type Workshop } from './sheets/workshop.js';
export type { Kernel, Mesh } from './solid/kernel.js';
export { loopArea } from './solid/sections.js';
export { cutDirections, sliceMesh } from './solid/slice.js';
export { type Surfaces, surfacesOf } from './solid/surfaces.js';
export {
  type Bounds,
  type Loop,
  type Placement,
  placementMatrix,
  type Vec2,
  type Vec3,
} from './solid/vector.js';
export {
  lookUp,
  STOCK_KINDS,
  type StockEntry,
  UnknownStockError,
} from './stock/lookup.js';
export { nearest } from './stock/nearest.js';
export { plastic } from './stock/plastics.js';
