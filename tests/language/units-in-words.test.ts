import { expect, test } from 'vitest'
import { starterTable } from '../../src/estimate/starter/starter.ts'
import { cautionInWords, sourceInWords } from '../../src/language/caution-in-words.ts'
import { unitsInWords } from '../../src/language/units-in-words.ts'

test.each([
  ['12 ft 6 in', '12 pies 6 pulg'],
  ['= 20 ft, 5 ft', '= 20 pies, 5 pies'],
  ['1 ft', '1 pie'],
  ['11 ft', '11 pies'],
  ['0.1 ft', '0.1 pies'],
  ['54 ft³ (2 yd³)', '54 pies cúbicos (2 yardas cúbicas)'],
  ['1 ft³', '1 pie cúbico'],
  ['27 ft³ (1 yd³)', '27 pies cúbicos (1 yarda cúbica)'],
  ['20 bags of 2 ft³', '20 bolsas de 2 pies cúbicos'],
  ['1 ft 6 in to 2 ft', '1 pie 6 pulg a 2 pies'],
  ['37.5 paces', '37.5 pasos'],
  ['100 ft²', '100 pies cuadrados'],
  ['1,668 lb', '1,668 libras'],
  ['7.5 cm', '7.5 cm'],
  ['3.8 m', '3.8 m'],
])('"%s" is "%s" in Spanish, and stays in English', (shown, spanish) => {
  expect(unitsInWords(shown, 'es')).toBe(spanish)
  expect(unitsInWords(shown, 'en')).toBe(shown)
})

test('a caution says its figures in the reader’s units, and what names no unit as it is', () => {
  const table = starterTable('us')
  const caution = { code: 'depth-over', params: { bed: '2', depth: '6 in', greatest: '4 in' } } as const
  expect(cautionInWords(caution, table, 'es')).toContain('Jardinera 2: 6 pulg es más')
  expect(cautionInWords(caution, table, 'es')).toContain('(4 pulg como máximo)')
  expect(cautionInWords(caution, table, 'en')).toContain('Bed 2: 6 in is deeper')
})

test('whose advice it is stands in the reader’s language where a table starts with it, else as the owner typed it', () => {
  expect(sourceInWords('Massachusetts fire code, 527 CMR 17', 'es')).toBe(
    'Código de incendios de Massachusetts, 527 CMR 17',
  )
  expect(sourceInWords('Our own rule', 'en')).toBe('our own rule')
  expect(sourceInWords('Our fire chief', 'es')).toBe('Our fire chief')
})

test('every source that a table starts with is told in Spanish', () => {
  const sources = (['us', 'metric'] as const).flatMap(units => starterTable(units).cautions)
  expect(sources.filter(({ source }) => sourceInWords(source, 'es') === source)).toEqual([])
})
