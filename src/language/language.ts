export type Language = 'en' | 'es'

/** The same in both languages. */
export type InBoth = Record<Language, string>
