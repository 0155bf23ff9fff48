import { expect, test } from 'vitest'
import { printFigures, printFiles } from './figures.ts'
import { filesOf } from './files.ts'

const textOf = (path: string) => filesOf(path)[0]?.text

test('every figure is documented beside its row, as npm run figures prints it', () => {
  expect(textOf('src/estimate/table/README.md')).toContain(printFigures())
})

test('every file of the rates is documented beside its code, as npm run figures prints it', () => {
  expect(textOf('src/rates/csv/README.md')).toContain(printFiles())
})
