// Put in place by src/build/offline.ts when the site is built.

/** The pack of each tree. */
declare const PACK_OF_TREE: import('#core/offline/choose-pack.ts').PackOfTree;
/** The address below the site's base of each pack, by name. */
declare const PACKS: Readonly<Record<string, string>>;
/** The packs that are fetched after a visit to a page that needs them, or when a person asks for their block, by name. */
declare const LATER_PACKS: Readonly<Record<string, import('#core/offline/later-pack.ts').LaterPack>>;
/** What is fetched before this version may take over. */
declare const PRECACHE: readonly import('workbox-precaching').PrecacheEntry[];
