import { spawnSync } from 'node:child_process'
import { cpSync, globSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const ROOT = join(import.meta.dirname, '../..')

/** A type that must have no member, and what it means if it has: the members are put in at `$`. */
export interface NoneOf {
  type: string
  fault: string
}

/** A fault that the compiler found; lines and columns count from 1. */
export interface Said {
  file: string
  line: number
  column: number
  code: string
  words: string
}

/**
 * What the compiler says of types that should have no member, and of bodies of functions, asked once. Both may name
 * Views, PageExtras, LayoutData and LetterData; types also KeysOf, the keys of any member of a union.
 */
export function askCompiler(asked: NoneOf[], bodies: string): { faults: string[]; inBodies: Said[] } {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-views-'))
  try {
    writeProgram(folder, asked, bodies)
    const { stdout, error } = spawnSync(join(ROOT, 'node_modules/.bin/tsc'), [
      '-p',
      folder,
      '--pretty',
      'false',
    ])
    if (error) throw error
    const said = saidIn(String(stdout))
    return {
      faults: said.filter(({ file }) => file !== 'bodies.ts').flatMap(one => inWords(one, asked)),
      inBodies: said.filter(({ file }) => file === 'bodies.ts'),
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
}

const DATA = `import type { LayoutData, PageExtras, Views } from './src/http/render.ts'
import type { LetterData } from './src/letters/letter.ts'
export type Known = [LayoutData, PageExtras, Views, LetterData]
`
const HEAD = `${DATA}type KeysOf<T> = T extends unknown ? keyof T : never
type None<T extends never> = T
`

// A copy of the source that isn't itself checked, which is done elsewhere: a second instead of ten.
function writeProgram(folder: string, asked: NoneOf[], bodies: string): void {
  cpSync(join(ROOT, 'src'), join(folder, 'src'), { recursive: true })
  for (const path of globSync('src/**/*.ts', { cwd: folder }).map(path => join(folder, path)))
    writeFileSync(path, `// @ts-nocheck\n${readFileSync(path, 'utf8')}`)
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }')
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'))
  const config = {
    extends: join(ROOT, 'tsconfig.json'),
    compilerOptions: { noErrorTruncation: true, incremental: false, tsBuildInfoFile: null },
    include: ['src', 'names.ts', 'bodies.ts'],
  }
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config))
  const lines = asked.map(({ type }, index) => `export type None${index} = None<${type}>\n`)
  writeFileSync(join(folder, 'names.ts'), HEAD + lines.join(''))
  writeFileSync(join(folder, 'bodies.ts'), DATA.replaceAll('\n', ';') + bodies)
}

function saidIn(printed: string): Said[] {
  return printed.split('\n').flatMap(line => {
    const said = /^(?:.*\/)?(.+?)\((\d+),(\d+)\): error (TS\d+): (.*)$/.exec(line)
    if (!said)
      return line.startsWith('error') ? [{ file: '', line: 0, column: 0, code: '', words: line }] : []
    const [, file, at, column, code, words] = said
    return [{ file: file!, line: Number(at), column: Number(column), code: code!, words: words! }]
  })
}

function inWords({ file, line, code, words }: Said, asked: NoneOf[]): string[] {
  const fault = file === 'names.ts' && asked[line - HEAD.split('\n').length]?.fault
  const type = /^Type '(.*)' does not satisfy/.exec(words)?.[1] ?? ''
  const members = [...type.matchAll(/"([^"]+)"/g)].map(match => match[1]!)
  if (!fault || code !== 'TS2344' || !members.length) return [`${file}: ${words}`]
  return members.map(member => fault.replace('$', member))
}
