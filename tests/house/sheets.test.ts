import { expect, test } from 'vitest'
import { allFiles } from '../../src/rates/csv/all-files.ts'
import { filesOf } from './files.ts'

test('README.md lists every file of the rates in a spreadsheet, with its columns in their order', () => {
  const [readme] = filesOf('README.md')
  expect(allFiles.length).toBeGreaterThan(10)
  for (const { file, columns } of allFiles) {
    const line = readme?.text.split('\n').find(row => row.startsWith(`| \`${file}\` |`))
    const listed = columns.map(({ name }) => `\`${name}\``).join(', ')
    expect({ file, line }).toEqual({ file, line: expect.stringContaining(`| ${listed} |`) })
  }
})
