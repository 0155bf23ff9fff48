import { expect, test } from 'vitest'
import { allFiles } from '../../src/rates/csv/all-files.ts'
import { filesOf } from './files.ts'

test('the columns of the CSV files stand beside their code, every file with its columns in their order', () => {
  const [readme] = filesOf('src/rates/csv/README.md')
  expect(allFiles.length).toBeGreaterThan(10)
  for (const { file, columns } of allFiles) {
    const line = readme?.text.split('\n').find(row => row.startsWith(`| \`${file}\` |`))
    const listed = columns.map(({ name }) => `\`${name}\``).join(', ')
    expect({ file, line }).toEqual({ file, line: expect.stringContaining(`| ${listed} |`) })
  }
})
