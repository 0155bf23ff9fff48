/** The parts between commas that stand in no bracket, trimmed, with their places in the code. */
export function pieces(code: string, offset = 0) {
  const cuts = [-1]
  for (let at = 0, depth = 0; at < code.length; at++) {
    if ('([{'.includes(code[at]!)) depth++
    if (')]}'.includes(code[at]!)) depth--
    if (code[at] === ',' && depth === 0) cuts.push(at)
  }
  return cuts.map((cut, index) => {
    const raw = code.slice(cut + 1, cuts[index + 1])
    const from = offset + cut + 1 + raw.length - raw.trimStart().length
    return { text: raw.trim(), from, to: from + raw.trim().length, end: offset + cut + 1 + raw.length }
  })
}

/** Where the bracket closes that was opened right before `start`. */
export function endOf(code: string, start: number): number {
  let depth = 1
  let at = start
  for (; at < code.length; at++) {
    if ('([{'.includes(code[at]!)) depth++
    if (')]}'.includes(code[at]!) && --depth === 0) break
  }
  return at
}

const TOKEN =
  /\/\*[\s\S]*?\*\/|\/\/.*|'(?:\\.|[^'\\])*'|"(?:\\.|[^"\\])*"|(?<=[(,=:[!&|?{};]\s*)\/(?:\\.|\[(?:\\.|[^\]\\])*\]|[^/\\\n])+\/|[\s\S]/y
const TEMPLATE_PART = /\\[\s\S]|\$\{|[\s\S]/y

/** The code with every character of its strings, comments and regular expressions a space, so that all stays in place. */
export function withoutTexts(code: string): string {
  const open: string[] = []
  let out = ''
  while (out.length < code.length) {
    const inText = open.at(-1) === '`'
    const pattern = inText ? TEMPLATE_PART : TOKEN
    pattern.lastIndex = out.length
    const token = pattern.exec(code)![0]
    if (token === '`' && !inText) open.push(token)
    else if (token === (inText ? '${' : '{')) open.push(token)
    else if (token === (inText ? '`' : '}')) open.pop()
    if (inText) out += token === '${' ? ' {' : ' '.repeat(token.length)
    else out += token.length === 1 && token !== '`' ? token : ' '.repeat(token.length)
  }
  return out
}

/** The code with a part of it made spaces. */
export function blank(code: string, from: number, to: number): string {
  return code.slice(0, from) + ' '.repeat(to - from) + code.slice(to)
}
