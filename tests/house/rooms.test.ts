import { expect, test } from 'vitest'
import { filesOf } from './files.ts'
import { againstTheOrder, circlesAmong, printRooms, ROOMS, roomOf } from './rooms.ts'

const source = filesOf('src/**/*.ts')

test('each room imports only from itself and from those above it', () => {
  expect(againstTheOrder(source)).toEqual([])
})

test('no files import each other in a circle, not even types', () => {
  expect(circlesAmong(source)).toEqual([])
})

test('an import the wrong way is told by name', () => {
  const planted = {
    path: 'src/requests/planted.ts',
    text: `import { showQueue } from '../queue/list-page.ts'\n`,
  }
  expect(againstTheOrder([...source, planted])).toEqual([
    'src/requests/planted.ts imports src/queue/list-page.ts, but queue stands below requests',
  ])
  const typesOnly = {
    path: 'src/estimate/shapes/planted.ts',
    text: `import type {\n  Bed,\n} from '../job/bed.ts'\n`,
  }
  expect(againstTheOrder([...source, typesOnly])).toEqual([
    'src/estimate/shapes/planted.ts imports src/estimate/job/bed.ts, but estimate/job stands below estimate/shapes',
  ])
  expect(againstTheOrder([{ path: 'src/attic/planted.ts', text: '' }])).toEqual([
    'src/attic/planted.ts is in no room',
  ])
})

test('a circle within a room is told by name', () => {
  const planted = [
    { path: 'src/lib/a.ts', text: `import { b } from './b.ts'\n` },
    { path: 'src/lib/b.ts', text: `export type { C } from './c.ts'\n` },
    { path: 'src/lib/c.ts', text: `const a = await import('./a.ts')\n` },
  ]
  expect(circlesAmong([...source, ...planted])).toEqual([planted.map(({ path }) => path)])
})

test('every room that is listed has a file, and DEVELOPERS.md shows the list', () => {
  const lived = new Set(source.map(({ path }) => roomOf(path)))
  expect(ROOMS.map(([room]) => room).filter(room => !lived.has(room))).toEqual([])
  const [developers] = filesOf('DEVELOPERS.md')
  // To mend it: npm run rooms, and put what that prints in place of the table.
  expect(developers?.text).toContain(`\n\n${printRooms()}\n\n`)
})
