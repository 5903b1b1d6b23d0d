// The few names of the platform that the file adapters use and that both browsers and Node have.

interface TextDecoderLike {
  decode(bytes: Uint8Array): string;
}
declare const TextDecoder: new (label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean }) => TextDecoderLike;

interface TextEncoderLike {
  encode(text: string): Uint8Array<ArrayBuffer>;
}
declare const TextEncoder: new () => TextEncoderLike;

// Its own types would bring all of Node's with them; this is the part that is used.
declare module 'papaparse' {
  interface Parsed {
    data: string[][];
    errors: { type: string; code: string; message: string; row?: number }[];
  }
  interface ParseConfig {
    delimiter: string;
    newline?: string;
    quoteChar?: string;
    preview?: number;
    skipEmptyLines?: boolean;
    dynamicTyping?: false;
    header?: false;
  }
  const Papa: { parse(text: string, config: ParseConfig): Parsed };
  export default Papa;
}
