import type { HomeSheet } from '../words/homeSheet.ts'

/** What to do and to mind when the owner fits the parts; the same on the owner's page, on paper and for the shop. */
export const HomeSheetBody = ({ sheet }: { sheet: HomeSheet }) => (
  <div class="home-sheet">
    <p>{sheet.about}</p>
    {sheet.ours !== undefined && (
      <>
        <h3>{sheet.ours.head}</h3>
        <p>
          <b>{sheet.ours.says}</b>
        </p>
      </>
    )}
    <h3>{sheet.head}</h3>
    <ol>
      {sheet.steps.map(({ what, cautions }) => (
        <li>
          <b>{what}</b>
          {cautions.length > 0 && (
            <ul class="cautions">
              {cautions.map((text) => (
                <li>{text}</li>
              ))}
            </ul>
          )}
        </li>
      ))}
    </ol>
    {sheet.end.map((text) => (
      <p>{text}</p>
    ))}
  </div>
)
