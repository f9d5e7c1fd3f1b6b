/** Paper and ink, for screen and print: one typeface, tabular figures, few lines. */
export const handoverStyle = `
:root { --ink: #1d2b30; --paper: #fff; --line: #cfcabb; --muted: #55605b; --lacks: #7a3f12; --has: #2f7f74; --falls: #c98a1b; }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 10.5pt/1.42 system-ui, "Segoe UI", Roboto, "Helvetica Neue", "DejaVu Sans", sans-serif; font-variant-numeric: tabular-nums; }
main { max-width: 190mm; margin: 0 auto; padding: 10mm 6mm; }
h1 { font-size: 22pt; line-height: 1.15; margin: 0 0 4mm; }
h2 { font-size: 14.5pt; margin: 9mm 0 2mm; padding-top: 2mm; border-top: 2px solid var(--ink); }
h3 { font-size: 11.5pt; margin: 5mm 0 1mm; }
p, ul { margin: 1.5mm 0; }
ul { padding-left: 5mm; }
li { margin: 1mm 0; }
a { color: inherit; }
.kind { color: var(--muted); margin: 0; }
dl { display: grid; grid-template-columns: 1fr 1fr; gap: 0.5mm 8mm; margin: 0 0 3mm; }
dl div { display: flex; gap: 3mm; }
dt { color: var(--muted); flex: 0 0 24mm; }
dd { margin: 0; }
nav ol { display: grid; grid: repeat(3, auto) / auto-flow; margin: 3mm 0; padding-left: 5mm; }
figure { margin: 3mm 0; }
table { border-collapse: collapse; width: 100%; font-size: 8.6pt; line-height: 1.3; }
caption { text-align: left; font-weight: 600; padding: 0 0 1mm; }
th, td { text-align: left; vertical-align: top; padding: 0.9mm 2mm 0.9mm 0; border-bottom: 0.5px solid var(--line); }
th:last-child, td:last-child { padding-right: 0; }
tbody th, tfoot th { font-weight: 500; }
thead th { font-weight: 500; color: var(--muted); vertical-align: bottom; border-bottom: 1px solid var(--ink); }
thead .group { padding-left: 4mm; text-align: right; border-bottom: 0.5px solid var(--line); }
tfoot th, tfoot td { font-weight: 600; border-top: 1px solid var(--ink); }
.number { text-align: right; }
td.number { white-space: nowrap; }
.figures tbody th { white-space: nowrap; }
.to-fill-in tbody tr { height: 7.5mm; }
.unit { white-space: nowrap; }
.source, figcaption { color: var(--muted); font-size: 8.4pt; }
.table figcaption { margin-top: 1mm; }
.drawing figcaption { color: var(--ink); font-weight: 600; font-size: 8.6pt; }
.fails { color: var(--lacks); font-weight: 700; }
.flow { width: 100%; height: auto; font-size: 11px; }
.flow text { fill: var(--ink); }
.flow .strong { font-weight: 700; }
.flow .source { fill: var(--ink); }
.flow .band { fill: var(--has); opacity: 0.7; stroke: var(--paper); stroke-width: 0.5; }
.flow .end { fill: var(--has); }
.flow .lacks { fill: none; stroke: var(--lacks); stroke-width: 1.2; stroke-dasharray: 3 2; }
.flow .falls { fill: var(--falls); opacity: 0.85; }
@page { margin: 14mm 13mm 16mm; @bottom-right { content: counter(page) " of " counter(pages); font: 8pt system-ui, "DejaVu Sans", sans-serif; color: #55605b; } }
@media (max-width: 720px) {
  nav ol, dl { display: block; }
  .table { overflow-x: auto; }
}
@media print {
  body { font-size: 9.5pt; print-color-adjust: exact; }
  main { max-width: none; padding: 0; }
  h2, h3, caption { break-after: avoid; }
  tr, .drawing, .whole, li { break-inside: avoid; }
  thead { display: table-header-group; }
  tfoot { display: table-row-group; }
}
`;
