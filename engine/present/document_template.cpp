#include "present/document_template.hpp"

namespace ashtriage::present {

// Large enough to be read from a post beside a path, and black on white so that any printer does.
const char* const document_template = R"html({{%AUTOESCAPE context="HTML"}}<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{TITLE}}</title>
<style>
  :root { color-scheme: light; }
  * { box-sizing: border-box; }
  body { margin: 0 auto; padding: 1rem; max-width: 46rem; color: #1d1d1b; background: #fff;
         font: 1.1rem/1.45 "Helvetica Neue", "DejaVu Sans", sans-serif; overflow-wrap: anywhere; }
  h1 { font-size: 1.8rem; line-height: 1.2; margin: 0 0 .8rem; }
  h2 { font-size: 1.2rem; margin: 1.4rem 0 .3rem; border-top: 2px solid #1d1d1b; padding-top: .4rem; }
  .first { border: 3px solid #1d1d1b; padding: .5rem .8rem; font-weight: bold; margin: .6rem 0; }
  dl { margin: 0; }
  dl div { display: grid; grid-template-columns: 14rem 1fr; gap: .2rem .8rem; padding: .2rem 0;
           border-bottom: 1px solid #b9b6ae; }
  dt { color: #45433f; }
  dd { margin: 0; white-space: pre-line; }
  dd:only-child { grid-column: 1 / -1; }
  .last { color: #45433f; font-size: 1rem; }
  @media (max-width: 34rem) { dl div { grid-template-columns: 1fr; } }
  @page { margin: 15mm; }
  @media print {
    body { padding: 0; max-width: none; font-size: 11pt; }
    h2 { break-after: avoid; }
    dl div, .first { break-inside: avoid; }
  }
</style>
</head>
<body>
<h1>{{TITLE}}</h1>
{{#FIRST}}<p class="first">{{TEXT}}</p>
{{/FIRST}}
{{#SECTION}}<section>
<h2>{{HEADING}}</h2>
<dl>{{#LINE}}<div>{{#TERM}}<dt>{{WORDS}}</dt>{{/TERM}}<dd>{{TEXT}}</dd></div>
{{/LINE}}</dl>
</section>
{{/SECTION}}
{{#LAST}}<p class="last">{{TEXT}}</p>
{{/LAST}}
</body>
</html>
)html";

}  // namespace ashtriage::present
