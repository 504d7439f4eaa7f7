import { describe, expect, test } from 'vitest'
import { ConfigFault, readConfig } from '../../api/config.ts'

describe('the settings', () => {
  test('have their usual values where nothing is said, an empty variable included', () => {
    const usual = { host: '127.0.0.1', port: 4180, databaseUrl: undefined, dataFolder: undefined }
    expect(readConfig({})).toEqual(usual)
    expect(readConfig({ PORT: '', HOST: '', DATABASE_URL: '', SLAKEBOOK_DATA: '' })).toEqual(usual)
  })

  test('are taken as they are said', () => {
    const said = {
      PORT: '0',
      HOST: '0.0.0.0',
      DATABASE_URL: 'postgres://potter:clay@db:5432/slakebook',
      SLAKEBOOK_DATA: '/var/lib/slakebook',
    }
    expect(readConfig(said)).toEqual({
      host: '0.0.0.0',
      port: 0,
      databaseUrl: said.DATABASE_URL,
      dataFolder: said.SLAKEBOOK_DATA,
    })
  })

  test.each([
    ['PORT', '65536'],
    ['PORT', '80a'],
    ['PORT', '-1'],
    ['HOST', 'my host'],
    ['DATABASE_URL', 'mysql://db/slakebook'],
    ['DATABASE_URL', 'slakebook'],
  ])('refuse %s=%s by name', (name, value) => {
    expect(() => readConfig({ [name]: value })).toThrow(new RegExp(`^${name} must`))
  })

  test('name every fault at once, and no password', () => {
    const said = { PORT: 'a', HOST: ' ', DATABASE_URL: 'mysql://potter:secret@db/x' }
    const fault = faultOf(said)
    expect(fault).toBeInstanceOf(ConfigFault)
    expect(fault?.message.split('\n')).toHaveLength(3)
    expect(fault?.message).not.toContain('secret')
  })
})

function faultOf(environment: Record<string, string>): Error | undefined {
  try {
    readConfig(environment)
    return undefined
  } catch (error) {
    return error as Error
  }
}
