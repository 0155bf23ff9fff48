import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const source = readFileSync(new URL('../../views/assets/_tokens.css', import.meta.url), 'utf8')
const [light, dark] = source.split('@media (prefers-color-scheme: dark)').map(readColours) as [
  Colours,
  Colours,
]

type Colours = Record<string, string>

function readColours(css: string): Colours {
  return Object.fromEntries(
    [...css.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name!, value!]),
  )
}

// WCAG 2.2, relative luminance and contrast ratio
function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map(at => {
    const channel = Number.parseInt(colour.slice(at, at + 2), 16) / 255
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!
}

function contrast(a: string, b: string): number {
  const [darker, lighter] = [luminance(a), luminance(b)].sort((one, other) => one - other)
  return (lighter! + 0.05) / (darker! + 0.05)
}

const TEXT = [
  ...['ink', 'soft', 'bark', 'leaf', 'leaf-deep', 'clay'].flatMap(text => [
    [text, 'paper'],
    [text, 'wash'],
  ]),
  ['on-leaf', 'leaf'],
  ['on-leaf', 'leaf-deep'],
  ['on-clay', 'clay'],
] as [string, string][]

test('black on white is 21 to 1, and a colour on itself 1 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBe(21)
  expect(contrast('#2f5d3a', '#2f5d3a')).toBe(1)
})

test.each(TEXT)('%s on %s reads well in the light and in the dark', (text, ground) => {
  for (const colours of [light, dark])
    expect(contrast(colours[text]!, colours[ground]!)).toBeGreaterThanOrEqual(4.5)
})

test.each(['rule', 'hatch'])('%s, which draws borders and marks, stands out from the paper', line => {
  for (const colours of [light, dark])
    expect(contrast(colours[line]!, colours.paper!)).toBeGreaterThanOrEqual(3)
})

test('both schemes set the same colours', () => {
  expect(Object.keys(dark).sort()).toEqual(Object.keys(light).sort())
})
