import { printRoutes } from '../../src/http/route-table.ts'
import { allRoutes } from './all-routes.ts'

console.log(printRoutes(await allRoutes()))
