#include "present/crew_schedule_page_template.hpp"

namespace ashtriage::present {

// Each bar is a week of a crew: its outline the time that may be planned, its filling what is. Told
// by height and not by colour, so that it prints in black.
const char* const crew_schedule_page_template = R"html({{%AUTOESCAPE context="HTML"}}<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>The season of the crews</title>
<style>
  :root { color-scheme: light; }
  * { box-sizing: border-box; }
  body { margin: 0 auto; padding: 1rem; max-width: 52rem; color: #1d1d1b; background: #fff;
         font: 1.05rem/1.45 "Helvetica Neue", "DejaVu Sans", sans-serif; overflow-wrap: anywhere; }
  h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .6rem; }
  h2 { font-size: 1.2rem; margin: 1.5rem 0 .3rem; border-top: 2px solid #1d1d1b; padding-top: .4rem; }
  h3 { font-size: 1.05rem; margin: 1rem 0 .2rem; }
  .stop { border: 3px solid #1d1d1b; padding: .5rem .8rem; font-weight: bold; }
  .chart { overflow-x: auto; }
  svg { display: block; max-width: 100%; height: auto; }
  svg text { font: 12px "Helvetica Neue", "DejaVu Sans", sans-serif; fill: #1d1d1b; }
  dl { margin: 0; }
  dl div { display: grid; grid-template-columns: 9rem 1fr; gap: .2rem .8rem; padding: .2rem 0;
           border-bottom: 1px solid #b9b6ae; }
  dt { color: #45433f; }
  dd { margin: 0; }
  .quiet { color: #45433f; font-size: 1rem; }
  @media (max-width: 34rem) { dl div { grid-template-columns: 1fr; } }
  @page { margin: 13mm; }
  @media print {
    body { padding: 0; max-width: none; font-size: 10.5pt; }
    h2, h3 { break-after: avoid; }
    dl div, svg, .stop { break-inside: avoid; }
  }
</style>
</head>
<body>
<h1>The season of the crews</h1>
{{#EXAMPLE}}<p class="stop">{{TEXT}}</p>
{{/EXAMPLE}}
<p>{{STANDING}} {{AFTER_BEST}} {{FREE_FOR_RAIN}}</p>
{{#CHART}}<div class="chart"><svg viewBox="0 0 {{WIDTH}} {{HEIGHT}}" width="{{WIDTH}}" role="img" aria-label="{{ALT}}">
{{#ROW}}<text x="0" y="{{TEXT_Y}}">{{NAME}}</text>
<line x1="{{LEFT}}" y1="{{BASE}}" x2="{{RIGHT}}" y2="{{BASE}}" stroke="#1d1d1b"/>
{{/ROW}}{{#BAR}}<rect x="{{X}}" y="{{Y}}" width="{{W}}" height="{{H}}" fill="{{FILL}}" stroke="#1d1d1b"><title>{{WORDS}}</title></rect>
{{/BAR}}{{#TICK}}<line x1="{{X}}" y1="{{TOP}}" x2="{{X}}" y2="{{BOTTOM}}" stroke="#b9b6ae"/><text x="{{X}}" y="{{TEXT_Y}}">{{WORDS}}</text>
{{/TICK}}</svg></div>
<p class="quiet">{{LEGEND}}</p>{{/CHART}}
{{#DAY}}<h3>{{WORDS}}</h3>
<dl>{{#VISIT}}<div><dt>{{TIMES}}</dt><dd>{{WHAT}}</dd></div>
{{/VISIT}}</dl>
{{/DAY}}
{{#LEFT_OUT}}<h2>Left out</h2><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/LEFT_OUT}}
{{#PROOFS}}<h2>Why not all of it can be done</h2><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/PROOFS}}
{{#NOT_SCHEDULED}}<h2>Not scheduled</h2><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/NOT_SCHEDULED}}
<p class="quiet">{{LABEL_FIRST}}</p>
</body>
</html>
)html";

}  // namespace ashtriage::present
