/** The part of WebAssembly used (W3C Recommendation, JavaScript interface 2): the types of Node do not include it. */
declare namespace WebAssembly {
  class Module {
    constructor(bytes: Uint8Array);
  }

  class Memory {
    constructor(descriptor: { readonly initial: number });
    readonly buffer: ArrayBuffer;
  }

  class Instance {
    constructor(module: Module, imports: { readonly [space: string]: { readonly [name: string]: Memory } });
    readonly exports: { readonly [name: string]: unknown };
  }

  interface Global {
    readonly value: number;
  }
}
