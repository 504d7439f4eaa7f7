import { afterAll } from 'vitest'
import { closeBrowser } from './browser.ts'

afterAll(closeBrowser)
