// By where their keys lie; a walk goes from each key to one beside it, above or below.
const LAYOUTS = [
  ['1234567890', 'qwertyuiop', 'asdfghjkl', 'zxcvbnm'],
  ['1234567890', 'qwertzuiop', 'asdfghjkl', 'yxcvbnm'],
  ['1234567890', 'azertyuiop', 'qsdfghjklm', 'wxcvbn'],
  ['1234567890', 'йцукенгшщзхъ', 'фывапролджэ', 'ячсмитьбю'],
].map(rows => new Map(rows.flatMap((keys, row) => [...keys].map((key, column) => [key, { row, column }]))))

type Layout = (typeof LAYOUTS)[number]

const SHORTEST_WALK = 3

/** A text in small letters without its walks over a keyboard of three keys or more, as 'qwerty', '1qaz' or 'q1w2e3'. */
export function withoutWalks(text: string): string {
  return LAYOUTS.reduce(withoutWalksOn, text)
}

function withoutWalksOn(text: string, layout: Layout): string {
  const walks: string[] = []
  let before = ''
  for (const key of text) {
    if (isBeside(layout, before, key)) walks[walks.length - 1] += key
    else walks.push(key)
    before = key
  }
  return walks.map(walk => (walk.length < SHORTEST_WALK ? walk : ' ')).join('')
}

function isBeside(layout: Layout, one: string, other: string): boolean {
  const [from, to] = [layout.get(one), layout.get(other)]
  return Boolean(from && to && Math.abs(from.row - to.row) <= 1 && Math.abs(from.column - to.column) <= 1)
}
