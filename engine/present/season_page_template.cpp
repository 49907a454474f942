#include "present/season_page_template.hpp"

namespace ashtriage::present {

// Tables turn into stacked lines on a phone; on paper nothing is cut in two.
const char* const season_page_template = R"html({{%AUTOESCAPE context="HTML"}}<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Season {{YEAR}}</title>
<style>
  :root { color-scheme: light; }
  * { box-sizing: border-box; }
  body { margin: 0 auto; padding: 1rem; max-width: 52rem; color: #1d1d1b; background: #fff;
         font: 1rem/1.45 "Helvetica Neue", "DejaVu Sans", sans-serif; overflow-wrap: break-word; }
  h1 { font-size: 1.6rem; margin: 0 0 .3rem; }
  h2 { font-size: 1.25rem; margin: 1.8rem 0 .4rem; border-top: 2px solid #1d1d1b; padding-top: .4rem; }
  h3 { font-size: 1.05rem; margin: 1.1rem 0 .2rem; }
  p, ul, dl { margin: .4rem 0; }
  ul { padding-left: 1.3rem; }
  .quiet { color: #45433f; font-size: .92rem; }
  .method, .event-entry { break-inside: avoid; }
  dl.ends div { display: grid; grid-template-columns: 9rem 1fr; gap: 0 .8rem; padding: .15rem 0;
                border-bottom: 1px solid #c9c6bf; }
  dl.ends dt { color: #45433f; }
  dl.ends dd { margin: 0; }
  svg { display: block; width: 100%; height: auto; break-inside: avoid; }
  svg text { font: 12px "Helvetica Neue", "DejaVu Sans", sans-serif; fill: #45433f; }
  svg text.event { fill: #1d1d1b; }
  svg .grid { stroke: #dcd9d2; stroke-width: 1; }
  svg .band { fill: #b7a26a; fill-opacity: .35; }
  svg polyline { fill: none; stroke-linejoin: round; }
  svg .past { stroke: #8b8880; stroke-width: 1; }
  svg .projected { stroke: #1d1d1b; stroke-width: 2; stroke-dasharray: 6 4; }
  svg .now { stroke: #1d1d1b; stroke-width: 3; }
  @media (max-width: 34rem) { dl.ends div { grid-template-columns: 1fr; } svg text { font-size: 18px; } }
  @page { margin: 14mm; }
  @media print { body { padding: 0; max-width: none; font-size: 10.5pt; } h2, h3 { break-after: avoid; } }
</style>
</head>
<body>
<header>
<h1>Season {{YEAR}}</h1>
<p>As of {{AS_OF}}. The label, the leaves on the tree and the soil come before any date here.</p>
{{#HEAT}}{{#ITEM}}<p class="quiet">{{TEXT}}</p>{{/ITEM}}{{/HEAT}}
</header>
{{#CHART}}<section>
<h2>Degree days F</h2>
{{SVG:none}}
<p class="quiet">Thick: {{YEAR}}. Dashed: projected by the mean of past seasons. Thin: past seasons. Shaded: the figures of the calendar.</p>
</section>{{/CHART}}
<section>
<h2>When each method may be applied</h2>
{{#METHOD}}<div class="method">
<h3>{{TITLE}}</h3>
{{#STATE}}<p>{{TEXT}}</p>{{/STATE}}
{{#ENDS}}<dl class="ends">{{#END}}<div><dt>{{NAME}}</dt><dd><strong>{{DATE}}</strong> <span class="quiet">{{BY}}</span></dd></div>{{/END}}</dl>{{/ENDS}}
{{#NEEDS}}<ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/NEEDS}}
</div>
{{/METHOD}}
{{#CAUTIONS}}<h3>To know about these dates</h3><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/CAUTIONS}}
{{#LEFT_OUT}}<ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/LEFT_OUT}}
</section>
<section>
<h2>Borer and plants</h2>
{{#EVENT}}<div class="event-entry">
<h3>{{TITLE}}, {{BAND}} degree days</h3>
{{#DATES}}<p>{{TEXT}}</p>{{/DATES}}
{{#KNOWN}}<p class="quiet">{{TEXT}}</p>{{/KNOWN}}
{{#NOTE}}<p class="quiet">{{TEXT}}</p>{{/NOTE}}
</div>
{{/EVENT}}
</section>
{{#SOURCES}}<section><h2>Sources</h2><ul class="quiet">{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul></section>{{/SOURCES}}
</body>
</html>
)html";

}  // namespace ashtriage::present
