import 'vitest'

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the folder with an embedded store is, or will be, that others are copies of. */
    madeStore?: string
    /** Which of the two stores the tests of this project run on; absent where they need none. */
    storeKind?: 'embedded' | 'postgres'
    /** A file with a migrated embedded store, to be loaded into memory. */
    storeImage?: string
    /** A file with an embedded store that has had no migration. */
    emptyImage?: string
    /** A folder where the tests of a run say which kinds of page they check the markup of. */
    markupClaims?: string
    /** A PostgreSQL server, and the migrated database on it of which every worker's own is a copy. */
    serverUrl?: string
    template?: string
  }
}
