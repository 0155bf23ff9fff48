/** What a thing is called, in each language of the pages. */
export interface Name {
  en: string
  es: string
}
