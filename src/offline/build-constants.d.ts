// Put in place by src/build/offline.ts when the site is built.

/** The block of each tree. */
declare const BLOCK_OF_TREE: import('#core/offline/choose-pack.ts').BlockOfTree;
/** The address below the site's base of each pack, by name. */
declare const PACKS: Readonly<Record<string, string>>;
/** The pack that is fetched only after a visit to a page that needs it. */
declare const LATE_PACK: { readonly url: string; readonly integrity: string } | null;
/** What is fetched before this version may take over. */
declare const PRECACHE: readonly import('workbox-precaching').PrecacheEntry[];
