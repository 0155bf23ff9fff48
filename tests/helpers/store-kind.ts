import 'vitest'

declare module 'vitest' {
  export interface ProvidedContext {
    /** Which of the two stores the tests of this project run on; absent where they need none. */
    storeKind?: 'embedded' | 'postgres'
    /** A file with a migrated embedded store, to be loaded into memory. */
    storeImage?: string
    /** A PostgreSQL server with the migrated database `TEMPLATE`. */
    serverUrl?: string
  }
}

/** The migrated database of which every test file's own is a copy. */
export const TEMPLATE = 'bedwright_template'
