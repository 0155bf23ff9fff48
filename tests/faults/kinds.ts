/** What can go wrong, and the tests that make it happen. */
export interface Kind {
  what: string
  /** Parts of the paths of test files, below `tests`; each has to be in one at least. */
  files: string[]
  /** What a long run takes besides. */
  more?: string[]
  /** Of tests that open stores of their own, which ones; else it is told by what ran. */
  stores?: string
  /** What says how often, as the tests read it; and how often that is, in a short run and in a long one. */
  tries?: { by: string; short: string; long: string }
  /** What else a long run sets. */
  long?: Record<string, string>
  /** Sets what a long run goes through one after another. */
  each?: Record<string, string>[]
}

export const KINDS: Kind[] = [
  {
    what: 'kill -9 under load',
    files: ['faults/kill.test'],
    stores: 'both',
    tries: { by: 'ROUNDS', short: '3', long: '250' },
  },
  {
    what: 'kill -9 after any statement',
    files: ['start/killed-at-statement'],
    tries: { by: 'KILLS', short: '3', long: 'all' },
  },
  {
    what: 'kill -9 while migrating',
    files: ['faults/dying-migration', 'faults/dying-upgrade'],
    stores: 'both',
  },
  {
    what: 'races, of two processes too',
    files: [
      'faults/two-processes',
      'faults/two-senders',
      'bookings/last-room',
      'bookings/rain-twice',
      'bookings/halves-twice',
      'billing/make-bill',
      'start/forms-twice',
    ],
    tries: { by: 'COMPETING', short: '200', long: '1000' },
    long: { MESSAGES: '400', RACES: '20' },
  },
  {
    what: 'restarts of the database',
    files: ['faults/restarts', 'faults/connections'],
    stores: 'postgres',
    tries: { by: 'ROUNDS', short: '3', long: '50' },
  },
  { what: 'loss of the database’s server', files: ['faults/failover'], stores: 'postgres' },
  { what: 'SIGTERM under load', files: ['start/stop-under-load'] },
  { what: 'slow and broken input', files: ['faults/slow-sockets', 'http/multipart', 'access/junk'] },
  {
    what: 'requests at random',
    files: ['access/typed-at-random'],
    tries: { by: 'FUZZ', short: '150', long: '50000' },
  },
  { what: 'a mail server away', files: ['letters/retries', 'letters/delivery', 'letters/eight-hours'] },
  {
    what: 'backups under load',
    files: ['backup/under-load'],
    tries: { by: 'BACKUPS', short: '1', long: '10' },
  },
  {
    what: 'a full disk',
    files: [
      'faults/full-disk',
      'http/handed-back',
      'operations/nightly-backup',
      'faults/room-for-log',
      'faults/log-of-store',
    ],
    long: { FULL_DISK: 'both' },
  },
  {
    what: 'clocks and zones',
    files: ['db/values', 'lib/', 'letters/reminders', 'days/'],
    more: ['bookings/', 'letters/', 'billing/', 'requests/'],
    each: ['UTC', 'America/New_York', 'Pacific/Auckland'].map(TZ => ({ TZ })),
  },
]
