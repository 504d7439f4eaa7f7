/** Shows what prints the page, and gives it its work. */
export function showPrintButtons(): void {
  for (const button of document.querySelectorAll<HTMLButtonElement>('button[data-print]')) {
    button.hidden = false
    button.addEventListener('click', () => print())
  }
}
