/** Bundled: the bytes of a WASM file. */
declare module '*.wasm' {
  const bytes: Uint8Array;
  export default bytes;
}

/** Bundled: the worker’s script as a text, for a worker that opens from a file as well as from a server. */
declare module 'worker:*' {
  const script: string;
  export default script;
}
