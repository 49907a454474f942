#include "present/rule_tables_page_template.hpp"

namespace ashtriage::present {

const char* const rule_condition_template =
    R"html({{%AUTOESCAPE context="HTML"}}{{TEXT}}{{#PARTS}}<ul>{{#PART}}<li>{{>CONDITION}}</li>{{/PART}}</ul>{{/PARTS}})html";

const char* const rule_tables_page_template = R"html({{%AUTOESCAPE context="HTML"}}<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>The rules in words</title>
<style>
  :root { color-scheme: light; }
  * { box-sizing: border-box; }
  body { margin: 0 auto; padding: 1rem; max-width: 64rem; color: #1d1d1b; background: #fff;
         font: 1rem/1.45 "Helvetica Neue", "DejaVu Sans", sans-serif; overflow-wrap: break-word; }
  h1 { font-size: 1.6rem; margin: 0 0 .3rem; }
  h2 { font-size: 1.25rem; margin: 2.2rem 0 .4rem; border-top: 1px solid #1d1d1b;
       padding-top: .6rem; }
  p, dl, ul { margin: .4rem 0; }
  ul { padding-left: 1.1rem; }
  a { color: inherit; }
  code { font-family: "DejaVu Sans Mono", monospace; font-size: .88em; }
  dt { float: left; clear: left; width: 5.5rem; color: #55534e; }
  dd { margin-left: 5.5rem; }
  .quiet { color: #55534e; }
  table { border-collapse: collapse; width: 100%; margin-top: .6rem; }
  th, td { text-align: left; vertical-align: top; padding: .4rem .8rem .4rem 0;
           border-bottom: 1px solid #c9c6bf; }
  td ul { margin: 0; }
  @media (max-width: 44rem) {
    thead { display: none; }
    tr { display: block; border-bottom: 1px solid #1d1d1b; padding: .5rem 0; }
    td { display: block; border: 0; padding: .1rem 0; }
    td[data-label]::before { content: attr(data-label) ": "; color: #55534e; }
  }
  @page { margin: 15mm; }
  @media print {
    body { padding: 0; max-width: none; font-size: 9.5pt; }
    tr { break-inside: avoid; }
    h2 { break-after: avoid; }
  }
</style>
</head>
<body>
<header>
<h1>The rules in words</h1>
<p class="quiet">{{IN_USE}}</p>
<p>{{BRACKETS}}</p>
<p>Tables: {{#ENTRY}}<a href="#table-{{NAME}}">{{NAME}}</a>{{#ENTRY_separator}}, {{/ENTRY_separator}}{{/ENTRY}}.</p>
</header>
{{#TABLE}}
<section>
<h2 id="table-{{NAME}}">{{TITLE}}</h2>
<p>{{ABOUT}}</p>
<dl>
<dt>Written</dt><dd>table <code>{{NAME}}</code> in <code>{{FILE}}</code></dd>
<dt>Gives</dt><dd>{{GIVES}}</dd>
<dt>Fed by</dt><dd>{{FED_BY}}</dd>
<dt>Feeds</dt><dd>{{FEEDS}}</dd>
<dt>Answers</dt><dd>{{ANSWERS}}</dd>
{{#CLAIMS}}<dt>Claims</dt><dd>{{TEXT}}{{#EXCEPTION}} Except {{TEXT}}{{/EXCEPTION}}</dd>
{{/CLAIMS}}</dl>
<table>
<thead><tr><th>Rule</th><th>When</th><th>Gives</th><th>Because</th><th>Source</th></tr></thead>
<tbody>
{{#RULE}}<tr><td><code>{{ID}}</code></td><td data-label="When">{{>CONDITION}}</td><td data-label="Gives">{{GIVES}}</td>
<td data-label="Because">{{BECAUSE}}</td><td data-label="Source">{{#KEY}}<a href="#source-{{NAME}}">{{NAME}}</a>{{#KEY_separator}}, {{/KEY_separator}}{{/KEY}}</td></tr>
{{/RULE}}</tbody>
</table>
</section>
{{/TABLE}}
{{#SETTINGS}}
<section>
<h2>Settings used</h2>
<table>
<thead><tr><th>Setting</th><th>Value</th><th>About</th><th>Source</th></tr></thead>
<tbody>
{{#SETTING}}<tr><td><code>{{NAME}}</code></td><td data-label="Value">{{VALUE}}</td><td data-label="About">{{ABOUT}}</td><td data-label="Source">{{#KEY}}<a href="#source-{{NAME}}">{{NAME}}</a>{{#KEY_separator}}, {{/KEY_separator}}{{/KEY}}</td></tr>
{{/SETTING}}</tbody>
</table>
</section>
{{/SETTINGS}}
{{#SOURCES}}
<section>
<h2>Sources</h2>
<table>
<thead><tr><th>Source</th><th>Citation</th><th>How it was had</th></tr></thead>
<tbody>
{{#SOURCE}}<tr id="source-{{NAME}}"><td><code>{{NAME}}</code></td><td data-label="Citation">{{CITATION}}</td><td data-label="How it was had">{{EVIDENCE}}</td></tr>
{{/SOURCE}}</tbody>
</table>
</section>
{{/SOURCES}}
<section>
<h2>Please note</h2>
<p>{{GENERAL_CAUTION}}</p>
</section>
</body>
</html>
)html";

}  // namespace ashtriage::present
