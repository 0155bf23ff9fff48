import { answerJobs } from '../../src/limits/thread.ts'

const die = () => process.exit(3)

// A program of a thread that ends over whatever it is asked.
answerJobs({ form: die, live: die, contact: die, ballpark: die })
