const ones = [
  ['one', 'uno', 'un', 'una'],
  ['two', 'dos'],
  ['three', 'tres'],
  ['four', 'cuatro'],
  ['five', 'cinco'],
  ['six', 'seis'],
  ['seven', 'siete'],
  ['eight', 'ocho'],
  ['nine', 'nueve'],
]

const teens = [
  ['ten', 'diez'],
  ['eleven', 'once'],
  ['twelve', 'doce'],
  ['thirteen', 'trece'],
  ['fourteen', 'catorce'],
  ['fifteen', 'quince'],
  ['sixteen', 'dieciseis'],
  ['seventeen', 'diecisiete'],
  ['eighteen', 'dieciocho'],
  ['nineteen', 'diecinueve'],
]

const tens = [
  ['twenty', 'veinte'],
  ['thirty', 'treinta'],
  ['forty', 'cuarenta'],
  ['fifty', 'cincuenta'],
  ['sixty', 'sesenta'],
  ['seventy', 'setenta'],
  ['eighty', 'ochenta'],
  ['ninety', 'noventa'],
]

/** Every word for a number from 1 to 99 that is one word, with what it is. */
const numbers = new Map<string, number>([
  ...ones.flatMap((words, index) => words.map((word): [string, number] => [word, index + 1])),
  ...teens.flatMap((words, index) => words.map((word): [string, number] => [word, index + 10])),
  ...tens.flatMap((words, index) => words.map((word): [string, number] => [word, index * 10 + 20])),
  ...ones.flatMap((words, index) =>
    words.slice(1).map((word): [string, number] => [`veinti${word}`, index + 21]),
  ),
])

const listed = (words: Iterable<string>) => [...words].join('|')
const one = listed(ones.flat())
const ten = listed(tens.flat())
// Twenty five, twenty-five, treinta y cinco; then what is one word. Nothing that a letter follows.
const spelled = new RegExp(`\\b(?:(${ten})(?:-| y | )(${one})|(${listed(numbers.keys())}))\\b`, 'g')

const halves: [RegExp, string][] = [
  [/\b(?:an? )?half (?:of )?(?:an? )?|\bmedi[oa] /g, '1/2 '],
  [/\bthree[- ]quarters (?:of )?(?:an? )?|\btres cuartos (?:de )?/g, '3/4 '],
  [
    /\b(?:an?|one)[- ]quarter (?:of )?(?:an? )?|\bquarter (?=acre\b)|\bquarter of an (?=acre\b)|\bun cuarto (?:de )?/g,
    '1/4 ',
  ],
]
const andHalf =
  /(\d|[a-z.'"]) (?:and|&|y) (?:an? |one |un )?(half|medi[oa]|three[- ]quarters|tres cuartos|quarter|cuarto)\b/g
const fractionOf: Record<string, string> = {
  half: '1/2',
  medio: '1/2',
  media: '1/2',
  quarter: '1/4',
  cuarto: '1/4',
}

/**
 * Numbers in words, to ninety-nine in both languages, in digits: 'twenty-five' is '25', 'doce y medio' is '12 1/2'. A
 * half after a unit is half of that, and so marked by a plus: 'twelve feet and a half' is '12 feet +1/2'. The text is
 * in small letters without accents.
 */
export function numbersInDigits(text: string): string {
  if (!/[a-z]{3}/.test(text)) return text
  const shared = `${text} `.replace(andHalf, (_whole, before: string, share: string) => {
    const fraction = fractionOf[share] ?? '3/4'
    return /[\da-z]/.test(before) ? `${before} +${fraction}` : `${before}+${fraction}`
  })
  return halves
    .reduce((made, [words, share]) => made.replace(words, share), shared)
    .replace(spelled, (_whole, many?: string, few?: string, single?: string) =>
      String(many ? numbers.get(many)! + numbers.get(few!)! : numbers.get(single!)!),
    )
    .replace(/(\d) \+(?=\d)/g, '$1 ')
    .replace(/\b(?:an?|una?) (?=(?:foot|yard|inch|meter|metre|acre|sq|cu|pie\b|yarda|metro|pulgada))/g, '1 ')
    .trim()
}
