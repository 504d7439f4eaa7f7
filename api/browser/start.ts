import { fillTimeZones } from './time-zone.ts'

fillTimeZones()
