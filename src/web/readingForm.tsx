import type { Problem } from '../problem.ts'
import { CopyText } from './copyText.tsx'
import { Field, ProblemSummary, type Typed } from './form.tsx'

/**
 * One line for Windows PowerShell: asks GetSystemFirmwareTable for the raw SMBIOS table (provider `RSMB`) and prints it
 * as base64. Source: Microsoft's documentation of sysinfoapi.h.
 */
export const WINDOWS_LINE = [
  "$f=Add-Type -PassThru -Name Table -Namespace Firmware -MemberDefinition '",
  '[DllImport("kernel32.dll")] public static extern uint GetSystemFirmwareTable(uint p,uint t,byte[] b,uint n);',
  "';$n=$f::GetSystemFirmwareTable(0x52534D42,0,$null,0);$b=New-Object byte[] $n;",
  '[void]$f::GetSystemFirmwareTable(0x52534D42,0,$b,$n);[Convert]::ToBase64String($b)',
].join('')

/** The same on Linux: the table is a file that the administrator may read. */
export const LINUX_LINE = 'sudo base64 /sys/firmware/dmi/tables/DMI'

const LABELS: Readonly<Record<string, string>> = {
  table: 'What the line printed',
  tableFile: 'Or a file',
  machine: 'Its tag',
}
export const readingLabel = (field: string): string | undefined => LABELS[field]

/** How to get a table, and the form that takes it. Without `tag` it may name a machine. */
export const ReadingForm = (props: {
  tag: string | undefined
  typed: Typed
  problems: readonly Problem[]
}) => {
  const { tag, typed, problems } = props
  return (
    <>
      <ProblemSummary
        problems={problems}
        labels={readingLabel}
        kept="Nothing was kept, neither the text nor the file. Give it once more."
      />
      <p>
        Every PC keeps a table of its own parts: board, firmware, processor, each memory module, slots. One
        line copies it out, and here it becomes proposals that you take or leave.
      </p>
      <h2>On Windows</h2>
      <p>
        Open PowerShell (no administrator needed), paste this line, press Enter, and copy what it prints: a
        few thousand letters that end with the last one before the prompt.
      </p>
      <CopyText id="windows-line" label="Line for Windows PowerShell" text={WINDOWS_LINE} rows={8} />
      <details>
        <summary>On Linux, or from a file</summary>
        <p>This line prints the same on Linux:</p>
        <CopyText id="linux-line" label="Line for Linux" text={LINUX_LINE} rows={2} />
        <p>
          Files are taken as they are: the table itself, a dump with its header, or hex and base64 text in any
          usual layout.
        </p>
      </details>
      <form
        method="post"
        action={tag === undefined ? '/reading' : `/machines/${encodeURIComponent(tag)}/reading`}
        enctype="multipart/form-data"
        class="form"
      >
        <Field name="table" label="What the line printed" rows={5} typed={typed} problems={problems} />
        <div class="field">
          <label for="f-tableFile">Or a file</label>
          <input id="f-tableFile" name="tableFile" type="file" data-lists="file-chosen" />
          <p id="file-chosen" class="soft" role="status"></p>
        </div>
        {tag === undefined && (
          <Field
            name="machine"
            label="Its tag"
            hint="If it is a machine of yours: the table is held against what is written about it. Else leave it empty."
            typed={typed}
            problems={problems}
            narrow
          />
        )}
        <p class="does">
          <button class="button" type="submit">
            Read it
          </button>
          <span class="soft">
            Serial numbers, asset tags and the machine’s own number (UUID) stand in the table too. They are
            not read, not shown and never stored; the text you paste is thrown away as soon as it is read.
          </span>
        </p>
      </form>
    </>
  )
}
