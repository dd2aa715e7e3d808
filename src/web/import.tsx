import type { Context, Hono } from 'hono'
import { folderGuide } from '../input/folderGuide.ts'
import type { ShopFile } from '../input/shopFolder.ts'
import { pastLimitRecords, saleRecords, sheetRecords } from '../input/tables/records.ts'
import type { Problem } from '../problem.ts'
import { failed, STATUS_OF } from '../problem.ts'
import type { ImportReport } from '../uses/importShop.ts'
import type { Figures } from '../words/figures.ts'
import type { OddNames } from '../words/odd.ts'
import { figuresOf, type Web } from './frame.ts'
import { page } from './layout.tsx'
import { ProblemList } from './problem.tsx'
import { readForm } from './readForm.ts'
import { namesIn, type OddFound, OddImported, oddStateOf } from './runOdd.tsx'

const PROBLEMS_SHOWN = 100
/** Given out and not read back. */
const RECORDS = [saleRecords, sheetRecords, pastLimitRecords].map(({ name }) => `${name}.csv`)

const Refused = ({ problems }: { problems: readonly Problem[] }) => (
  <section class="summary" role="alert" aria-labelledby="summary-head">
    <h2 id="summary-head">Nothing was imported</h2>
    <p>
      {problems.length === 1
        ? 'One thing stands in the way. Put it right in its file'
        : `${problems.length} things stand in the way. Put them right in the files`}{' '}
      and choose the files again; what was kept before is as it was.
    </p>
    <ProblemList problems={problems.slice(0, PROBLEMS_SHOWN)} />
    {problems.length > PROBLEMS_SHOWN && <p>And {problems.length - PROBLEMS_SHOWN} more.</p>}
  </section>
)

const Done = ({ report }: { report: ImportReport }) => (
  <section class="done" role="status">
    <h2>Imported</h2>
    <table class="list">
      <thead>
        <tr>
          <th scope="col">Table</th>
          <th scope="col" class="right">
            New
          </th>
          <th scope="col" class="right">
            Changed
          </th>
          <th scope="col" class="right">
            As before
          </th>
        </tr>
      </thead>
      <tbody>
        {report.tables.map((table) => (
          <tr>
            <td>
              <b>{table.file}</b>
            </td>
            <td class="right num" data-label="New">
              {table.added}
            </td>
            <td class="right num" data-label="Changed">
              {table.changed}
            </td>
            <td class="right num" data-label="As before">
              {table.unchanged}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
    {(report.notes ?? []).length > 0 && (
      <ul>
        {report.notes?.map((note) => (
          <li>{note}</li>
        ))}
      </ul>
    )}
    <p class="actions">
      <a class="button" href="/">
        Go to the questions
      </a>
    </p>
  </section>
)

type ImportState = {
  problems: readonly Problem[]
  report?: ImportReport | undefined
  /** What of all runs does not fit now, where runs came in. */
  odd?: OddFound | undefined
  names?: OddNames | undefined
  figures?: Figures | undefined
}

/** Every file a folder may hold, with its columns, from the tables that the import reads. */
const Tables = () => (
  <section>
    <h2>Which tables there are</h2>
    <p>Any of them may be left out. Columns in bold must be there and filled; an empty cell is not known.</p>
    <dl class="tables">
      {folderGuide().map(({ file, columns }) => (
        <div>
          <dt class="num">{file}</dt>
          <dd>
            {columns.map(({ name, required }, i) => (
              <>
                {i > 0 && ', '}
                {required ? <b>{name}</b> : name}
              </>
            ))}
          </dd>
        </div>
      ))}
    </dl>
    <p class="soft">
      What a cell takes: <code>npx stillfits tables</code> in a terminal.
    </p>
    <h2>Take your tables with you</h2>
    <p>
      The same files, as the shop stands now. Importing them changes nothing. All at once:{' '}
      <code>npx stillfits export FOLDER</code>
    </p>
    <ul class="api-toc">
      {folderGuide().map(({ file }) => (
        <li>
          <a href={`/export/${file}`} download={file}>
            {file}
          </a>
        </li>
      ))}
    </ul>
    <p>For your accounts and files, given out and not read back:</p>
    <ul class="api-toc">
      {RECORDS.map((file) => (
        <li>
          <a href={`/export/${file}`} download={file}>
            {file}
          </a>
        </li>
      ))}
    </ul>
  </section>
)

const ImportBody = ({ problems, report, odd, names, figures }: ImportState) => (
  <article class="card form wide">
    <h1>Import tables</h1>
    {problems.length > 0 && <Refused problems={problems} />}
    {report !== undefined && <Done report={report} />}
    {odd !== undefined && names !== undefined && figures !== undefined && (
      <OddImported found={odd} names={names} figures={figures} />
    )}
    <div class="halves">
      <form method="post" action="/import" enctype="multipart/form-data">
        <div class="field">
          <label for="files">CSV files, several at once</label>
          <p class="hint" id="files-hint">
            The first line of each file names its columns. A row whose key is known already changes that row.
            All files are kept together or none is.
          </p>
          <input
            id="files"
            name="files"
            type="file"
            accept=".csv,text/csv"
            multiple
            aria-describedby="files-hint"
            data-lists="files-chosen"
          />
          <p id="files-chosen" class="soft" role="status"></p>
        </div>
        <p class="actions">
          <button class="button" type="submit">
            Import these files
          </button>
        </p>
        <p class="soft">
          The same in a terminal: <code>npx stillfits import FOLDER</code>
        </p>
      </form>
      <Tables />
    </div>
  </article>
)

async function uploadedOf(form: FormData): Promise<ShopFile[]> {
  const files = form.getAll('files').filter((file) => typeof file !== 'string' && file.name !== '')
  return Promise.all(
    files.map(async (file) => {
      if (typeof file === 'string') throw new TypeError('a text among the files')
      return { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }
    }),
  )
}

export function importRoutes(app: Hono, { uses, options }: Web): void {
  const show = async (c: Context, state: ImportState) => {
    const shop = await uses.shop()
    const first = state.problems[0]
    return page(
      c,
      { title: 'Import tables', place: 'Import', demo: options.demo, shopName: shop.name },
      <ImportBody {...state} figures={figuresOf(shop)} />,
      first === undefined ? 200 : STATUS_OF[first.code],
    )
  }

  app.get('/import', (c) => show(c, { problems: [] }))

  app.post('/import', async (c) => {
    const files = await uploadedOf(await readForm(c))
    if (files.length === 0) {
      const next = 'Choose at least one CSV file, such as machines.csv.'
      return show(c, failed({ code: 'missing', field: 'files', next }))
    }
    const done = await uses.importFiles(files)
    if (!done.ok) return show(c, { problems: done.problems })
    const hasRuns = done.value.tables.some(
      ({ file, added, changed }) => file === 'runs.csv' && added + changed > 0,
    )
    return show(c, {
      ...{ problems: [], report: done.value },
      ...(hasRuns && { odd: oddStateOf(await uses.oddRuns()), names: namesIn(await uses.known()) }),
    })
  })
}
