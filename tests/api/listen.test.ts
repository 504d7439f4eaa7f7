import { setTimeout as pause } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { listen, PortTaken } from '../../api/listen.ts'

const LOCAL = { host: '127.0.0.1', port: 0 }

test('a taken port is refused, with what to do', async () => {
  const app = { fetch: () => new Response('here') }
  const first = await listen(app, LOCAL)
  const port = Number(new URL(first.address).port)
  const second = listen(app, { ...LOCAL, port })
  await expect(second).rejects.toBeInstanceOf(PortTaken)
  await expect(second).rejects.toThrow(`PORT=${String(port + 1)}`)
  await first.drain()
})

test('draining lets a request that is under way end, and takes no new one', async () => {
  let arrived = () => undefined as void
  const isUnderWay = new Promise<void>((resolve) => {
    arrived = resolve
  })
  const app = {
    fetch: async () => {
      arrived()
      await pause(200)
      return new Response('done')
    },
  }
  const { address, drain } = await listen(app, LOCAL)
  const answer = fetch(address, { headers: { connection: 'close' } })
  await isUnderWay
  const drained = drain()
  await expect((await answer).text()).resolves.toBe('done')
  await drained
  await expect(fetch(address)).rejects.toThrow()
})
