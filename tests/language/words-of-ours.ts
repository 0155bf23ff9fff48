/** A word of ours that homeowners don't read, as it would stand in a sentence, and what they read instead. */
export interface WordOfOurs {
  word: RegExp
  instead: string
}

/** In English. What "Ring around a tree" and "to finish the work" say is no word of ours. */
export const inEnglish: WordOfOurs[] = [
  { word: /\bdress(?:es|ed|ing)?\b/i, instead: 'mulch' },
  { word: /(?<!\bto )\bfinish(?:es)?\b/i, instead: 'material' },
  { word: /\b(?:provisional|ballparks?|scenarios?)\b/i, instead: 'price range, estimate' },
  { word: /\bcrew hours?\b/i, instead: 'labor hours' },
  { word: /\bplaces?\b/i, instead: 'property, address' },
  { word: /\bquote requests?\b/i, instead: 'request' },
  { word: /\brate tables?\b/i, instead: 'rates, prices' },
  { word: /\bpacks?\b/i, instead: 'bag, bale' },
  { word: /\bstages?\b/i, instead: '' },
  { word: /\b(?:drafts?|versions?|revisions?)\b/i, instead: 'a newer price' },
  { word: /\b(?:ring|rings|rang|rung)\b(?! around a tree)/i, instead: 'call' },
  { word: /\bround\b/i, instead: 'around' },
  { word: /(?<!e)\bmail(?:s|ed|ing)?\b/i, instead: 'email' },
  { word: /\b(?:called|calling|call it|call this) off\b/i, instead: 'canceled' },
  { word: /\bcancell(?:ed|ing)\b/i, instead: 'canceled' },
  { word: /\b(?:lapsed?|lapses)\b/i, instead: 'expired' },
  { word: /\bnot (?:taken|this time)\b/i, instead: 'declined' },
  { word: /\bhand(?:ed)?(?: \w+)? over\b/i, instead: 'send' },
  { word: /\bbarrows?\b/i, instead: 'wheelbarrow' },
  { word: /\blicences?\b/i, instead: 'license' },
  { word: /\bat present\b|\bany more\b/i, instead: 'right now, anymore' },
  { word: /\b(?:lies|lay|laid) (?:there|in)\b/i, instead: 'old mulch' },
  { word: /\btold\b/i, instead: 'described' },
  { word: /\b(?:post ?codes?|zips?(?! code))\b/i, instead: '{postcodeWord}' },
  { word: /\bmetres?\b|\bmeters?\b/i, instead: '{meters}' },
  { word: /\bcolou?rs?\b/i, instead: '{color}' },
]

// \b knows no accents.
const spanish = (words: string, instead: string): WordOfOurs => ({
  word: new RegExp(`(?<!\\p{L})(?:${words})(?!\\p{L})`, 'iu'),
  instead,
})

/** In Spanish: what was translated word by word, or is said so only in Spain. */
export const inSpanish: WordOfOurs[] = [
  spanish('macizos?', 'jardinera'),
  spanish('acabados?', 'material'),
  spanish('margen|márgenes', 'rango de precio'),
  spanish('provisional(?:es)?', 'aproximado'),
  spanish('(?:arregla|viste|vestir)\\p{L}*', 'cubrir'),
  spanish('hojarasca', 'paja de pino'),
  spanish('viajes?', 'traslado'),
  spanish('lugar(?:es)?', 'propiedad, dirección'),
  spanish('cuadrilla', 'horas de trabajo'),
  spanish('(?:como|de) siempre', 'lo habitual'),
  spanish('añad\\p{L}+', 'agregar'),
  spanish('puls(?:e|ar)', 'oprima'),
  spanish('anul\\p{L}+', 'cancelar'),
  spanish('importe', 'monto'),
  spanish('borrador(?:es)?|versión|versiones|revisión|revisiones', 'un precio más nuevo'),
  spanish('\\d (?:in|ft|yd|lb)', 'pulg, pies, yardas, libras'),
  spanish('ZIP', 'código postal'),
  spanish('(?:centí)?metros?', '{meters}'),
]
