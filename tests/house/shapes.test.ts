import { describe, expect, test } from 'vitest'
import { offeredShapes, shapeNames, shapeOf, sizeFields } from '../../src/estimate/shapes/all-shapes.ts'
import { buildAssets } from '../../src/http/assets.ts'
import { catalogue } from '../../src/language/catalogue.ts'
import type { Sentences } from '../../src/language/sentences.ts'
import { SIZE_WORDS } from '../../src/visits/size-words.ts'
import { filesOf } from './files.ts'

const assets = buildAssets()
const sentences: Sentences = catalogue

const missing = (keys: string[]) =>
  Object.entries(sentences).flatMap(([language, messages]) =>
    keys.filter(key => !messages[key]).map(key => `${key} in ${language}`),
  )

describe.each(shapeNames())('%s', name => {
  const { sizes, offered } = shapeOf(name)

  test('has its sentences in both languages, the title with every size', () => {
    expect(missing([`beds.shape-${name}`, `beds.title-${name}`])).toEqual([])
    const asked = sizes.map(size => size.name).sort()
    for (const messages of Object.values(sentences)) {
      const params = [...messages[`beds.title-${name}`]!.matchAll(/\{(\w+)\}/g)].map(([, param]) => param)
      expect(params.sort()).toEqual(asked)
    }
  })

  test('has a field for each size, with its words, on the sheet; and on the form where it is offered', () => {
    const fieldsAmong = (names: typeof shapes) =>
      sizeFields(names)
        .filter(field => field.shapes.includes(name))
        .map(field => field.name)
    const shapes = shapeNames()
    const asked = sizes.map(size => size.name)
    expect(fieldsAmong(shapes)).toEqual(asked)
    expect(asked.filter(size => !SIZE_WORDS[size])).toEqual([])
    expect(fieldsAmong(offeredShapes())).toEqual(offered ? asked : [])
  })

  test('has its rule in the style sheet, and its sizes in the contract for other programs', async () => {
    expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/)
    const { files } = await assets
    const style = [...files.values()].find(({ type }) => type.startsWith('text/css'))!.plain.toString()
    expect(style).toContain(`.bed:has(.shape-pick[value=${name}]:checked) .size:not([data-shapes~=${name}])`)
    const line = filesOf('src/requests/json-contract.md')[0]!
      .text.split('\n')
      .find(row => row.startsWith('| `shape`'))
    for (const word of [name, ...sizes.map(size => size.name)]) expect(line).toContain(`\`${word}\``)
  })
})

test.each(offeredShapes())('%s, which homeowners are offered, has an icon, and words for each size', name => {
  const { sizes, icon } = shapeOf(name)
  expect(icon.length).toBeGreaterThan(0)
  const hints = sizes
    .filter(({ reads }) => reads === 'area' || reads === 'volume')
    .flatMap(({ reads }) => [`form.${reads}-hint-us`, `form.${reads}-hint-metric`])
  expect(missing([...sizes.map(size => `form.${size.name}`), ...hints])).toEqual([])
})

test('without :has() the sizes of all shapes show', async () => {
  const style = [...(await assets).files.values()].find(({ type }) => type.startsWith('text/css'))!
  expect(style.plain.toString()).toContain('@supports selector(:has(*)){.bed:has(.shape-pick')
})

test('a size of one name reads the same whatever the shape, as all share its field', () => {
  for (const field of sizeFields(shapeNames())) {
    const readings = field.shapes.flatMap(name =>
      shapeOf(name)
        .sizes.filter(size => size.name === field.name)
        .map(size => size.reads),
    )
    expect(new Set(readings)).toEqual(new Set([field.reads]))
  }
})

test('the shapes and their size fields stand in this order on the pages', () => {
  const inOrder = (names: { name: string }[]) => names.map(({ name }) => name).join(' ')
  expect(offeredShapes().join(' ')).toBe(
    'rectangle strip curvy circle oval triangle tree-ring two-arms area volume',
  )
  expect(shapeNames().slice(offeredShapes().length).join(' ')).toBe(
    'circle-round half-circle quarter-circle ring sides trapezoid l-shape offsets uneven-offsets radii',
  )
  expect(inOrder(sizeFields(offeredShapes()))).toBe(
    'length width diameter base height inner band armLength armWidth area volume',
  )
  expect(inOrder(sizeFields(shapeNames()))).toBe(
    'length width diameter round radius base top height outer inner band armLength armWidth a b c cutLength cutWidth ' +
      'spacing spacings offsets radii area volume',
  )
})
