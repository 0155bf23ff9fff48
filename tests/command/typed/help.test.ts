import { expect, test } from 'vitest'
import { allCommands } from '../../../src/command/all-commands.ts'
import { typed } from './typing.ts'

const names = allCommands.map(({ name }) => name)

test.each(['', 'help', '--help', '-h'])('"%s" lists every command in a few lines', async words => {
  const { code, said, aside } = await typed(words)
  expect([code, aside]).toEqual([0, ''])
  for (const { name, summary } of allCommands)
    expect(said).toMatch(new RegExp(`^  ${name} .*${summary}$`, 'm'))
  expect(said.split('\n').length).toBeLessThan(20)
  expect(Math.max(...said.split('\n').map(line => line.length))).toBeLessThan(100)
})

test('every command tells of itself, and does nothing by that', async () => {
  expect(names).toEqual(expect.arrayContaining(['owner reset', 'backup', 'restore', 'settings']))
  for (const { name, takes = '', help } of allCommands) {
    const answer = await typed(`${name} --help`)
    expect(answer).toMatchObject({ code: 0, aside: '' })
    expect(answer.said).toContain(`${name} ${takes}`.trim())
    expect(answer.said).toContain(help.join('\n'))
    expect(await typed(`${name} -h`)).toEqual(answer)
    expect(await typed(`help ${name}`)).toEqual(answer)
  }
})

test('no command begins like another, as the first words tell which it is', () => {
  for (const name of names)
    expect(names.filter(other => other !== name && `${other} `.startsWith(`${name} `))).toEqual([])
})

test.each([
  ['ownr reset', 'There is no command "ownr reset". See: '],
  ['owner', 'There is no command "owner". Did you mean "owner reset"? See: '],
  ['help backups', 'There is no command "backups". See: '],
  ['--fresh', 'Name a command first. See: '],
  ['--help --fresh', 'Name a command first. See: '],
  ['owner reset now', '"owner reset" takes no "now". See: '],
  ['backup a b', '"backup" takes no "b". See: '],
  ['backup --overwrite', "Unknown option '--overwrite'. See: "],
  ['backup -x a', "Unknown option '-x'. See: "],
  ['settings --help=all', "Option '-h, --help' does not take an argument. See: "],
  ['restore', '"restore" needs FILE. See: '],
])('"%s" is refused in a line with a hint', async (words, says) => {
  const { code, said, aside } = await typed(words)
  expect([code, said]).toEqual([2, ''])
  expect(aside).toMatch(/^[^\n]+\n$/)
  expect(aside.startsWith(says)).toBe(true)
  expect(aside).toMatch(/See: npm run bedwright -- .*help\n$/)
})

test('a fault of the settings is told, and no more', async () => {
  const { code, said, aside } = await typed('backup', { PORT: '70000', SECRET_KEY: 'short' })
  expect([code, said]).toEqual([1, ''])
  expect(aside).toBe(
    'The settings have 2 problems:\n  PORT must be 0 to 65535\n  SECRET_KEY must be at least 32 characters long\n',
  )
})

test.each([
  ['backup', 'There’s no store in the folder /nowhere/at-all. Is DATA_DIR right?\n'],
  ['owner reset', 'There’s no store in the folder /nowhere/at-all. Is DATA_DIR right?\n'],
  ['restore /nowhere/a.gz', 'There’s no file /nowhere/a.gz.\n'],
])('"%s" makes nothing where nothing is', async (words, says) => {
  const file = words === 'backup' ? ' /tmp/never-written.gz' : ''
  expect(await typed(words + file, { DATA_DIR: '/nowhere/at-all' })).toMatchObject({
    code: 1,
    said: '',
    aside: says,
  })
})

test('a backup is not written onto a screen', async () => {
  const { code, aside, bytes } = await typed('backup -', { DATA_DIR: '/nowhere/at-all' }, true)
  expect([code, bytes.length]).toEqual([1, 0])
  expect(aside).toContain('isn’t text for a screen')
})
