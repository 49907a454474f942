#include "present/property_page_template.hpp"

namespace ashtriage::present {

const char* const property_page_template = R"html({{%AUTOESCAPE context="HTML"}}<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Ash trees at {{SITE}}</title>
<style>
  :root { color-scheme: light; }
  * { box-sizing: border-box; }
  body { margin: 0 auto; padding: 1rem; max-width: 46rem; color: #1d1d1b; background: #fff;
         font: 1rem/1.5 Georgia, "DejaVu Serif", serif; overflow-wrap: break-word; }
  h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .3rem; }
  h2 { font-size: 1.25rem; line-height: 1.3; margin: 2rem 0 .5rem; }
  h3 { font-size: 1.05rem; margin: 1rem 0 .2rem; }
  p, ul, dl { margin: .4rem 0; }
  ul { padding-left: 1.2rem; }
  .quiet { color: #55534e; }
  .verdict { font-size: 1.1rem; border-left: .3rem solid #1d1d1b; padding: .2rem .7rem;
             margin: .6rem 0; }
  .hazard { border: .15rem solid #1d1d1b; padding: .5rem .8rem; margin: .6rem 0; }
  .hazard strong { text-transform: uppercase; letter-spacing: .02em; }
  .example { border: .15rem dashed #55534e; padding: .4rem .8rem; margin: .6rem 0; }
  .wide { overflow-x: auto; }
  table { border-collapse: collapse; width: 100%; }
  th, td { text-align: left; vertical-align: top; padding: .35rem .8rem .35rem 0;
           border-bottom: 1px solid #c9c6bf; }
  .tree { border-top: 1px solid #1d1d1b; margin-top: 2rem; padding-top: .2rem; }
  svg { display: block; width: 100%; max-width: 24rem; height: auto; }
  svg text { font: 11px Georgia, "DejaVu Serif", serif; fill: #1d1d1b; }
  .cautions { border-top: .15rem solid #1d1d1b; margin-top: 2rem; }
  @page { margin: 18mm; }
  @media print {
    body { padding: 0; max-width: none; font-size: 10.5pt; }
    .hazard, .verdict, .example, tr, svg { break-inside: avoid; }
    h2, h3 { break-after: avoid; }
  }
</style>
</head>
<body>
<header>
<h1>Ash trees at {{SITE}}</h1>
{{#ADDRESS_SECTION}}<p class="quiet">{{ADDRESS}}</p>{{/ADDRESS_SECTION}}
<p class="quiet">{{#CLIENT_SECTION}}For {{CLIENT}}. {{/CLIENT_SECTION}}As of {{DATE}}.</p>
</header>

<h2>In short</h2>
<p>{{SUMMARY}}</p>
{{#URGENT_SECTION}}
<h3>First of all</h3>
<ul>
{{#URGENT}}<li>Tree {{LABEL}}{{#PLACE_SECTION}}, {{PLACE}}{{/PLACE_SECTION}}: <strong>{{FLAGS}}</strong>.
{{TODO}}</li>
{{/URGENT}}</ul>
{{/URGENT_SECTION}}
<div class="wide"><table>
<thead><tr><th>Tree</th><th>Where</th><th>Stem</th><th>Our advice</th></tr></thead>
<tbody>
{{#ROW}}<tr><td>{{LABEL}}</td><td>{{PLACE}}</td><td>{{STEM}}</td><td>{{VERDICT}}</td></tr>
{{/ROW}}</tbody>
</table></div>
{{#NOT_WALKED_SECTION}}<p>Not looked at yet: {{NOT_WALKED}}.</p>{{/NOT_WALKED_SECTION}}

{{#TREE}}
<section class="tree">
<h2>Tree {{LABEL}}{{#PLACE_SECTION}}, {{PLACE}}{{/PLACE_SECTION}}</h2>
<p class="quiet">{{STEM}}. Looked at on {{WALKED}}{{#OBSERVER_SECTION}} by {{OBSERVER}}{{/OBSERVER_SECTION}}.</p>
{{#HAZARD}}<div class="hazard"><strong>{{FLAG}}</strong><br>{{WHY}}
{{#TODO_SECTION}}<br>Now: {{TODO}}{{/TODO_SECTION}}
{{#WHO_SECTION}}<br>Who: {{WHO}}{{/WHO_SECTION}}</div>
{{/HAZARD}}
{{#NO_HAZARD}}<p>{{TEXT}}</p>{{/NO_HAZARD}}
{{#UNSEEN_SECTION}}<p class="quiet">Not looked at, or not seen: {{UNSEEN}}.</p>{{/UNSEEN_SECTION}}
{{#RATING_SECTION}}<p>Risk rating from the assessor's entries: {{RATING}}.</p>{{/RATING_SECTION}}
<p class="verdict">Our advice: {{ADVICE}}</p>
{{#GAUGE}}
<svg viewBox="0 0 340 62" role="img" aria-label="{{ALT}}">
<line x1="20" y1="30" x2="320" y2="30" stroke="#1d1d1b" stroke-width="1"/>
<rect x="{{BAND_X}}" y="24" width="{{BAND_WIDTH}}" height="12" fill="#c9c6bf"/>
<line x1="{{GOOD_X}}" y1="16" x2="{{GOOD_X}}" y2="38" stroke="#1d1d1b" stroke-width="1"/>
<line x1="{{STOP_X}}" y1="16" x2="{{STOP_X}}" y2="38" stroke="#1d1d1b" stroke-width="2"/>
<rect x="{{VALUE_X}}" y="20" width="{{VALUE_WIDTH}}" height="20" fill="#1d1d1b"/>
<text x="20" y="52">0 %</text>
<text x="{{GOOD_X}}" y="52" text-anchor="middle">{{GOOD}}</text>
<text x="{{STOP_X}}" y="52" text-anchor="middle">{{STOP}}</text>
<text x="320" y="52" text-anchor="end">100 %</text>
<text x="20" y="12">Crown dead, thin or missing: {{VALUE}}</text>
</svg>
<p class="quiet">Black: what was judged. Gray: how far a judgement by eye may be off. Lines: where the
advice may change.</p>
{{/GAUGE}}
{{#REASONS_SECTION}}<h3>Why</h3><ul>{{#REASON}}<li>{{TEXT}}</li>
{{/REASON}}</ul>{{/REASONS_SECTION}}
{{#NEXT_SECTION}}<h3>What to do next</h3><ul>{{#NEXT}}<li>{{TEXT}}</li>
{{/NEXT}}</ul>{{/NEXT_SECTION}}
{{#OPEN_SECTION}}<h3>Still to be found out</h3><ul>{{#OPEN}}<li>{{TEXT}}</li>
{{/OPEN}}</ul>{{/OPEN_SECTION}}
{{#CHANGE_SECTION}}<h3>What would change our advice</h3><ul>{{#CHANGE}}<li>{{TEXT}}</li>
{{/CHANGE}}</ul>{{/CHANGE_SECTION}}
{{#TREATMENT}}<h3>Treatment</h3>
<p>{{METHOD}}. {{WINDOW}}</p>
{{#CAUTION}}<p class="quiet">{{TEXT}}</p>{{/CAUTION}}
{{#METHOD_WHY}}<p>{{TEXT}}</p>{{/METHOD_WHY}}
{{#EXAMPLE}}<p class="example">{{TEXT}}</p>{{/EXAMPLE}}
{{#AMOUNTS_SECTION}}<div class="wide"><table>
<thead><tr><th>What</th><th>To measure out</th><th>The same as</th></tr></thead>
<tbody>{{#AMOUNT}}<tr><td>{{WHAT}}</td><td>{{AMOUNT}}</td><td>{{TWIN}}</td></tr>
{{/AMOUNT}}</tbody></table></div>{{/AMOUNTS_SECTION}}
{{#FINDING}}<p>{{TEXT}}</p>{{/FINDING}}
{{/TREATMENT}}
{{#COMPARISON}}<h3>The methods side by side</h3>
<div class="wide"><table>
<thead><tr><th>Method</th><th>Fits</th><th>Every</th><th>Active ingredient a year</th><th>Wound</th><th>Found for this size</th></tr></thead>
<tbody>{{#METHOD_ROW}}<tr><td>{{NAME}}</td><td>{{FITS}}</td><td>{{EVERY}}</td><td>{{ACTIVE}}</td><td>{{WOUND}}</td><td>{{FOUND}}</td></tr>
{{/METHOD_ROW}}</tbody></table></div>
<p class="quiet">The amounts are for comparing methods; what is measured out comes from the label. What is not known yet
may still change how a method fits.</p>{{/COMPARISON}}
{{#NOTES_SECTION}}<h3>Notes</h3><ul>{{#NOTE}}<li>{{TEXT}}</li>
{{/NOTE}}</ul>{{/NOTES_SECTION}}
</section>
{{/TREE}}

<section class="cautions">
<h2>Please note</h2>
<p>{{GENERAL_CAUTION}}</p>
<h3>Sources</h3>
<ul>{{#SOURCE}}<li>{{TEXT}}</li>
{{/SOURCE}}</ul>
<p class="quiet">Rules: {{EDITIONS}}; preset: {{PRESET}}; {{HASH}}.</p>
</section>
</body>
</html>
)html";

}  // namespace ashtriage::present
