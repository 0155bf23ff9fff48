import type { Language } from './language.ts'

const SPANISH: [pattern: RegExp, word: string][] = [
  [/(?<=\d )in\b/g, 'pulg'],
  [/(?<=\d )ft(?=[²³]|\b)/g, 'pies'],
  [/(?<=\d )yd(?=[²³]|\b)/g, 'yardas'],
  [/(?<=\d )pies²/g, 'pies cuadrados'],
  [/(?<=\d )pies³/g, 'pies cúbicos'],
  [/(?<=\d )yardas²/g, 'yardas cuadradas'],
  [/(?<=\d )yardas³/g, 'yardas cúbicas'],
  [/(?<=\d )bags of (?=\d)/g, 'bolsas de '],
  [/(?<=\d )paces\b/g, 'pasos'],
  [/(?<=[a-z] )to (?=\d)/g, 'a '],
  [/(?<=\d )lb\b/g, 'libras'],
  [/(?<![\d.,])1 (pie|yarda)s (c[^ )]+)s/g, '1 $1 $2'],
  [/(?<![\d.,])1 (pie|yarda|paso|bolsa)s/g, '1 $1'],
]

/** A figure as it is echoed, '12 ft 6 in', with its units in the words of a language: '12 pies 6 pulg'. */
export function unitsInWords(shown: string, language: Language): string {
  if (language === 'en') return shown
  return SPANISH.reduce((text, [pattern, word]) => text.replace(pattern, word), shown)
}
