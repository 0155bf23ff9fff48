import { execFile } from 'node:child_process'
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'

const ROOT = join(import.meta.dirname, '../..')
const WRONG = '// wrong'

// Each line that ends in the mark has to be refused, and no other.
const uses = `
import type { CautionCode } from '${ROOT}/src/estimate/table/caution.ts'
import type { Fault } from '${ROOT}/src/estimate/job/bed.ts'
import type { Misread } from '${ROOT}/src/estimate/reading/measure.ts'
import { notes } from '${ROOT}/src/estimate/reading/told-fields.ts'
import type { Shape } from '${ROOT}/src/estimate/shapes/shape.ts'
import type { ToldShape } from '${ROOT}/src/estimate/shapes/all-shapes.ts'
import { Conflict, Refusal } from '${ROOT}/src/http/errors.ts'
import { keyed, t, translator } from '${ROOT}/src/language/catalogue.ts'
import * as range from '${ROOT}/src/language/range.ts'
import { tOf } from '${ROOT}/src/language/sentences.ts'
import type { About } from '${ROOT}/src/outbox/message.ts'
declare const shape: ToldShape
declare const text: string
declare const about: About

t('en', 'range.heading')
t('en', 'range.headin') ${WRONG}
t('en', text) ${WRONG}
t('en', \`beds.title-\${shape}\`)
t('en', \`beds.titel-\${shape}\`) ${WRONG}
t('en', \`beds.title-\${text}\`) ${WRONG}
translator('es')('range.heading')
translator('es')('range.headin') ${WRONG}
about.t('mail.hello')
about.t('mail.helo') ${WRONG}
tOf(range)('en', 'range.heading')
tOf(range)('en', 'staff.nav') ${WRONG}
keyed('contact.too-long')
keyed('contact.to-long') ${WRONG}
new Refusal(400, 'error.400')
new Refusal(400, 'error.401') ${WRONG}
new Conflict('quote.none')
new Conflict('quote.nome') ${WRONG}
notes().fault('beds', 'fault.beds-missing')
notes().fault('beds', 'fault.bed-missing') ${WRONG}
export const fault: Fault['key'][] = ['fault.shape', 'fault.length-absurd', 'fault.ring-inner']
export const noFault: Fault['key'] = 'fault.shapes' ${WRONG}
export const misread: Misread['key'] = 'fault.area-missing'
export const noMisread: Misread['key'] = 'fault.area-lost' ${WRONG}
export const impossible: Shape['impossible'] = () => ({ size: 'inner', key: 'fault.ring-inner' })
export const possible: Shape['impossible'] = () => ({ size: 'inner', key: 'fault.shape' }) ${WRONG}
export const caution: CautionCode = 'fire'
export const noCaution: CautionCode = 'flood' ${WRONG}
`

let folder: string
let told: string

/** A file of sentences with one change, as it would be checked at its own place. */
async function changed(name: string, change: (text: string) => string): Promise<string> {
  const text = await readFile(join(ROOT, `src/language/${name}.ts`), 'utf8')
  const inPlace = change(text).replaceAll("from '../", `from '${ROOT}/src/`)
  expect(change(text)).not.toBe(text)
  return inPlace
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keys-'))
  const sources = {
    'uses.ts': uses,
    'faults-as-they-are.ts': await changed('faults', text => `${text}\n`),
    'fault-without-sentence.ts': await changed('faults', text =>
      text.replace(/^ {2}'fault\.shape': .*\n/gm, ''),
    ),
    'sentence-without-fault.ts': await changed('faults', text =>
      text.replaceAll("  'fault.shape':", "  'fault.shadow': '',\n  'fault.shape':"),
    ),
    'caution-without-sentence.ts': await changed('cautions', text =>
      text.replace(/^ {2}'caution\.large-size': .*\n/gm, ''),
    ),
    'sentence-without-caution.ts': await changed('cautions', text =>
      text.replaceAll("  'caution.large-size':", "  'caution.small-size': '',\n  'caution.large-size':"),
    ),
    'english-alone.ts': await changed('staff', text => text.replace(/^ {2}'staff\.days': 'Días',\n/m, '')),
    'spanish-alone.ts': await changed('staff', text =>
      text.replace("  'staff.days': 'Días',\n", "$&  'staff.nights': 'Noches',\n"),
    ),
  }
  for (const [name, text] of Object.entries(sources)) await writeFile(join(folder, name), text)
  const config = {
    extends: join(ROOT, 'tsconfig.json'),
    compilerOptions: {
      typeRoots: [join(ROOT, 'node_modules/@types')],
      incremental: false,
      tsBuildInfoFile: null,
    },
    include: [],
    files: Object.keys(sources),
  }
  await writeFile(join(folder, 'tsconfig.json'), JSON.stringify(config))
  await writeFile(join(folder, 'package.json'), JSON.stringify({ type: 'module' }))
  told = await new Promise(resolve => {
    const tsc = join(ROOT, 'node_modules/.bin/tsc')
    execFile(tsc, ['-p', folder, '--pretty', 'false'], { cwd: folder }, (_error, stdout) => resolve(stdout))
  })
}, 180_000)

afterAll(() => rm(folder, { recursive: true, force: true }))

/** The lines, from 1, of a file that tsc refuses. */
function refusedIn(name: string): number[] {
  const found = [...told.matchAll(/^(\S+)\((\d+),\d+\): error/gm)].filter(([, path]) => path!.endsWith(name))
  return [...new Set(found.map(([, , line]) => Number(line)))]
}

test('tsc refuses each key that isn’t there, and no other', () => {
  const lines = uses.split('\n')
  const wrong = lines.flatMap((line, index) => (line.endsWith(WRONG) ? [index + 1] : []))
  expect(wrong.length).toBe(15)
  expect(refusedIn('uses.ts'), told).toEqual(wrong)
})

test('tsc refuses a fault or a caution without a sentence, and a sentence without one', () => {
  expect(refusedIn('faults-as-they-are.ts'), told).toEqual([])
  expect(refusedIn('fault-without-sentence.ts')).toHaveLength(1)
  expect(refusedIn('sentence-without-fault.ts')).toHaveLength(1)
  expect(refusedIn('caution-without-sentence.ts')).toHaveLength(1)
  expect(refusedIn('sentence-without-caution.ts')).toHaveLength(1)
})

test('tsc refuses a sentence that only one language has', () => {
  expect(refusedIn('english-alone.ts')).toHaveLength(1)
  expect(refusedIn('spanish-alone.ts')).toHaveLength(1)
})
