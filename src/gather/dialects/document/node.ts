/** An element of an XML document, or an object of a JSON document. */
export interface DocumentNode {
  /** The element's name, or the key of the object or its list. */
  readonly name: string;
  /** Attributes; for objects, texts and numbers. */
  readonly scalars: Map<string, string>;
  /** The texts of child elements that contain nothing else. */
  readonly texts: Map<string, string>;
  readonly children: DocumentNode[];
}

export function newNode(name: string): DocumentNode {
  return { name, scalars: new Map(), texts: new Map(), children: [] };
}
