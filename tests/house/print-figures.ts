import { printFigures, printFiles } from './figures.ts'

console.log(`${printFigures()}\n\n${printFiles()}`)
