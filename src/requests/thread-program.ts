import type { RateTable } from '../estimate/table/rate-table.ts'
import { answerJobs, type Task } from '../limits/thread.ts'
import { openTable } from './open-table.ts'
import { workings } from './workings.ts'

// The program of a thread: all that it is asked has the rate table in common.
const tasks = Object.entries(workings).map(([name, work]) => [
  name,
  (asked: never, table: RateTable) => work(asked, openTable(table)),
])

answerJobs(Object.fromEntries(tasks) as Record<string, Task>)
