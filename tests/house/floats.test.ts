import { expect, test } from 'vitest'
import { filesOf } from './files.ts'

// What makes a float of a figure, or reckons with one.
const FLOATS = /\bNumber\(|\bmap\(Number\)|\.toNumber\(|\bparseFloat\(|\bMath\.\w/

// Held against another figure it stays as it is; and a whole number of digits alone is counted, not measured.
const COMPARED = /\bNumber\([^()]*\) (===|!==|<=?|>=?) (Number\([^()]*\)|[\w.]+)/g
const COUNTED = /\/\.test\((\w+)\) \? Number\(\1\)/g

/** Where floats may be: in the scenarios and in how uncertain they take things to be, and where something is drawn. */
const ALLOWED: [where: RegExp, within: RegExp][] = [
  [/^scenarios\//, /./],
  [/^job\/methods\//, /./],
  [/^shapes\//, /elasticities|formError|outline|path/i],
  [/^shapes\/path-rings\.ts$/, /./],
  [/^job\/place-cut-outs\.ts$/, /./],
  // Which purchases are compared, by the same rule in scenarios and firm prices; what is bought comes to decimals again.
  [/^packs\/(choices|found|options|shelf|together|trips|ways)\.ts$/, /./],
  [/^packs\/money\.ts$/, /^moneyIn$|^centsIn$/],
  [/^packs\/buy-together\.ts$/, /^buyTogether$|^offersFor$/],
  // What the scenarios are told.
  [/^ballpark\/ballpark\.ts$/, /^workOutBallpark$/],
  // Whether one way of measuring is worse than another: the scenarios' own errors.
  [/^table\/rate-table-schema\.ts$/, /^refuseWorse$/],
  // Figures are counted before any is read; digits after the point are counted.
  [/^reading\/read-beds\.ts$/, /^amountSent$|^amountsIn$/],
  [/^price\/price-lines\.ts$/, /^money$/],
  [/^worksheet\/figures\.ts$/, /^moneyOf$/],
  // Whether it is a fraction as on a tape measure, of digits alone.
  [/^reading\/typed\.ts$/, /^takeFraction$/],
  // How many cut-outs alike, of digits alone.
  [/^reading\/read-cut-outs\.ts$/, /./],
]

test('floats stay in the scenarios and in drawings: every other figure of the estimate is a decimal', () => {
  const found = filesOf('src/estimate/**/*.ts').flatMap(({ path, text }) => {
    const file = path.slice('src/estimate/'.length)
    const lines = text.split('\n')
    return lines.flatMap((line, index) => {
      if (!FLOATS.test(line.replace(COMPARED, '').replace(COUNTED, ''))) return []
      const within = declarationOf(lines, index)
      return ALLOWED.some(([where, name]) => where.test(file) && name.test(within))
        ? []
        : [`${file}: ${within}: ${line.trim()}`]
    })
  })
  expect(found).toEqual([])
})

/** The name of the function, or of the shape's own property, that a line is in; the formatter indents both. */
function declarationOf(lines: string[], index: number): string {
  for (let at = index; at >= 0; at--) {
    const found = /^(?:export )?(?:function\*? |const )(\w+)|^ {2}(\w+): .*=>/.exec(lines[at]!)
    if (found) return found[1] ?? found[2]!
  }
  return ''
}
