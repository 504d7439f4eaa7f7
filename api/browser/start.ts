import { sayWhenStored, storeForDeadSpots } from './dead-spots.ts'
import { keepForms } from './keep-form.ts'
import { showKept } from './kept-list.ts'
import { showKeypads } from './keypad.ts'
import { showPreviews } from './preview.ts'
import { showPrintButtons } from './print.ts'
import { startSending } from './sending.ts'
import { askServerTime } from './server-time.ts'
import { showSteps } from './steps.ts'
import { showTakenAs } from './taken-as.ts'
import { fillTimeZones } from './time-zone.ts'
import { showWeighFigures } from './weigh-figures.ts'

/**
 * What the script adds to pages that work without it. The press comes first, so that whatever else
 * goes wrong on a strange phone, nothing that was pressed is lost.
 */

keepForms()
showKept()
startSending()
sayWhenStored()
showKeypads()
showSteps()
showWeighFigures()
showTakenAs()
showPreviews()
showPrintButtons()
fillTimeZones()
void askServerTime()
storeForDeadSpots().catch(() => undefined)
