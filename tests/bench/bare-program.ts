import Fastify from 'fastify'

/** What a bare server answers: the bytes of one page, and of one answer to each POST by its path. */
interface Told {
  page: string
  answers: Record<string, string>
}

/** A server with nothing but Fastify, which sends what it is told to send: the measure of ours. */
const { page, answers } = JSON.parse(process.argv[2]!) as Told
const server = Fastify()
const html = Buffer.from(page)
server.get('/', async (_request, reply) => reply.type('text/html; charset=utf-8').send(html))
for (const [path, answer] of Object.entries(answers)) {
  const bytes = Buffer.from(answer)
  server.post(path, async (_request, reply) => reply.type('application/json; charset=utf-8').send(bytes))
}
const address = await server.listen({ port: 0, host: '127.0.0.1' })
console.log(JSON.stringify({ address }))
process.once('SIGTERM', () => process.exit(0))
