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

/**
 * Asks the compiler, once, for the members of types that should have none: each of them told as a sentence. The types
 * may name Views, PageExtras, LayoutData, LetterData and KeysOf, the keys of any member of a union.
 */
export function membersOf(asked: NoneOf[]): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-views-'))
  try {
    writeProgram(folder, asked)
    const { stdout, error } = spawnSync(join(ROOT, 'node_modules/.bin/tsc'), [
      '-p',
      folder,
      '--pretty',
      'false',
    ])
    if (error) throw error
    return faultsIn(String(stdout), asked)
  } finally {
    rmSync(folder, { recursive: true })
  }
}

const HEAD = `import type { LayoutData, PageExtras, Views } from './src/http/render.ts'
import type { LetterData } from './src/letters/letter.ts'
export type Known = [LayoutData, PageExtras, Views, LetterData]
type KeysOf<T> = T extends unknown ? keyof T : never
type None<T extends never> = T
`

// A copy of the source that isn't itself checked, which is done elsewhere: a second instead of ten.
function writeProgram(folder: string, asked: NoneOf[]): void {
  cpSync(join(ROOT, 'src'), join(folder, 'src'), { recursive: true })
  for (const path of globSync('src/**/*.ts', { cwd: folder }).map(path => join(folder, path)))
    writeFileSync(path, `// @ts-nocheck\n${readFileSync(path, 'utf8')}`)
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }')
  symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'))
  const config = {
    extends: join(ROOT, 'tsconfig.json'),
    compilerOptions: { noErrorTruncation: true },
    include: ['src', 'names.ts'],
  }
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config))
  const lines = asked.map(({ type }, index) => `export type None${index} = None<${type}>\n`)
  writeFileSync(join(folder, 'names.ts'), HEAD + lines.join(''))
}

function faultsIn(printed: string, asked: NoneOf[]): string[] {
  const before = HEAD.split('\n').length
  return printed
    .split('\n')
    .filter(line => /error TS/.test(line))
    .flatMap(line => {
      const [, at, type] =
        /names\.ts\((\d+),\d+\): error TS2344: Type '(.*)' does not satisfy/.exec(line) ?? []
      const fault = asked[Number(at) - before]?.fault
      const members = [...(type ?? '').matchAll(/"([^"]+)"/g)].map(match => match[1]!)
      if (!fault || !members.length) return [line]
      return members.map(member => fault.replace('$', member))
    })
}
