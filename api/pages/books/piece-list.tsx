import { newRouter } from '../../router.ts'
import { enterFirst, Ways } from '../first-needed.tsx'
import { show } from '../show.tsx'
import { allForms } from '../things.ts'

/** Of which form one wants to know what a piece costs. */
export const pieceList = newRouter()

pieceList.get('/books/piece', async (c) => {
  const voice = c.get('voice')
  const forms = await allForms(c)
  const ways = forms.map(({ formId, name, price }) => ({
    href: `/books/piece/${formId}`,
    name,
    ...(price === null ? {} : { words: `sells for ${voice.money(price)}` }),
  }))
  return show(
    c,
    { title: 'What a piece costs', here: 'books' },
    <>
      <h1>What a piece costs</h1>
      <p>{forms.length === 0 ? 'First say what is made here.' : 'Of which form?'}</p>
      <Ways
        ways={forms.length === 0 ? [enterFirst('forms', 'Enter a form', '/books/piece')] : ways}
      />
      <p>
        <a href="/books">The books</a>
      </p>
    </>,
  )
})
