/** Fills fields for the studio's time zone with the phone's own, where nothing is said yet. */
export function fillTimeZones(): void {
  const timeZone = Intl.DateTimeFormat().resolvedOptions().timeZone
  for (const field of document.querySelectorAll<HTMLInputElement | HTMLSelectElement>(
    'select[data-time-zone], input[data-time-zone]',
  )) {
    if (!isLeftOpen(field)) continue
    if (field instanceof HTMLSelectElement && !hasOption(field, timeZone)) {
      field.add(new Option(timeZone, timeZone))
    }
    field.value = timeZone
  }
}

/** What somebody chose, or what the studio says already, stays. */
function isLeftOpen(field: HTMLInputElement | HTMLSelectElement): boolean {
  return field.value === '' || field.dataset['timeZone'] === 'guess'
}

function hasOption(field: HTMLSelectElement, value: string): boolean {
  return [...field.options].some((option) => option.value === value)
}
