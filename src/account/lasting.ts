/** For how long a session stands, and how long of that it may lie unused. */
export interface Lasting {
  days: number
  idleDays: number
}

export const USUAL: Lasting = { days: 30, idleDays: 7 }
