/** What an attribute may hold. The element reference in the guide is made from these tables. */
export interface AttributeSpec {
  readonly kind: 'id' | 'ids' | 'former' | 'text' | 'minutes' | 'count' | 'one-of' | 'words' | 'instruments' | 'shows';
  readonly says: string;
  readonly required?: boolean;
  readonly oneOf?: readonly string[];
  readonly maxLength?: number;
}

export interface ElementSpec {
  readonly name: string;
  readonly says: string;
  readonly attributes: Readonly<Record<string, AttributeSpec>>;
  /** Elements that may stand inside, by name. */
  readonly children: readonly string[];
  readonly prose: 'required' | 'allowed' | 'none';
}
