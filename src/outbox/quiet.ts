import { sql } from 'kysely'

/** Whether anybody of the group of the `customer` of a query wants what concerns a booked job alone. */
export const isQuiet = sql<boolean>`exists (select from customer as same
  where same.head_id = customer.head_id and same.quiet_since is not null)`
