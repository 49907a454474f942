#include "present/mix_page_template.hpp"

namespace ashtriage::present {

// Large type: the sheet hangs at the tank and lies beside the tree, and is read at arm's length.
const char* const mix_page_template = R"html({{%AUTOESCAPE context="HTML"}}<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>What to mix and carry</title>
<style>
  :root { color-scheme: light; }
  * { box-sizing: border-box; }
  body { margin: 0 auto; padding: 1rem; max-width: 52rem; color: #1d1d1b; background: #fff;
         font: 1.25rem/1.4 "Helvetica Neue", "DejaVu Sans", sans-serif; overflow-wrap: break-word; }
  h1 { font-size: 1.7rem; margin: 0 0 .3rem; }
  h2 { font-size: 1.4rem; margin: 1.8rem 0 .4rem; border-top: 3px solid #1d1d1b; padding-top: .5rem; }
  h3 { font-size: 1.2rem; margin: 1.2rem 0 .3rem; }
  p, ul, ol { margin: .4rem 0; }
  ul, ol { padding-left: 1.4rem; }
  .stop { border: 4px solid #1d1d1b; padding: .5rem .8rem; font-weight: bold; }
  .quiet { color: #45433f; font-size: 1.05rem; }
  dl.amounts { margin: .5rem 0; }
  dl.amounts div { border-bottom: 1px solid #8b8880; padding: .3rem 0; }
  dl.amounts dt { color: #45433f; }
  dl.amounts dd { margin: 0; font-size: 1.7rem; font-weight: bold; }
  dl.amounts dd span { font-size: 1.1rem; font-weight: normal; }
  .tree { break-inside: avoid; }
  @page { margin: 12mm; }
  @media print {
    body { padding: 0; max-width: none; font-size: 14pt; }
    .tree { break-before: page; }
    h2, h3 { break-after: avoid; }
    dl.amounts div { break-inside: avoid; }
  }
</style>
</head>
<body>
<header>
<h1>{{SITE}}, {{DATE}}</h1>
{{#EXAMPLE}}<p class="stop">STOP: EXAMPLE CARDS. Nothing may be mixed or applied by this sheet; it shows how one looks.</p>{{/EXAMPLE}}
<p>{{LABEL_FIRST}}</p>
{{#WEAR}}<h3>Wear, as the labels say</h3><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/WEAR}}
<p>{{WATER}}</p>
<p>{{SPILL_KIT}}</p>
<p class="quiet">{{EMERGENCY}}</p>
</header>
{{#CARD}}
<section>
<h2>{{TITLE}}</h2>
<p><strong>{{PRODUCT}}</strong></p>
{{#CARRY}}<h3>Carry</h3><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/CARRY}}
{{#ORDER}}<h3>Mixing order</h3><ol>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ol>{{/ORDER}}
{{#TANK}}<h3>Tank {{NUMBER}}: {{FINISHED}}</h3>
<dl class="amounts">{{#PART}}<div><dt>{{WHAT}}</dt><dd>{{AMOUNT}} <span>({{TWIN}})</span></dd></div>{{/PART}}</dl>
{{#SHARES}}<ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/SHARES}}
{{/TANK}}
{{#SAYS}}<h3>{{HEADING}}</h3>{{#LINES}}<ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/LINES}}{{/SAYS}}
</section>
{{/CARD}}
{{#TREE}}
<section class="tree">
<h2>At the tree: {{LABEL}}</h2>
{{#TREE_EXAMPLE}}<p class="stop">EXAMPLE CARD: nothing may be applied by it.</p>{{/TREE_EXAMPLE}}
<p>{{IDENTITY}}</p>
<p><strong>{{PRODUCT}}</strong></p>
<dl class="amounts">{{#PART}}<div><dt>{{WHAT}}</dt><dd>{{AMOUNT}} <span>({{TWIN}})</span></dd></div>{{/PART}}</dl>
{{#DOSE}}<ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/DOSE}}
{{#WARNINGS}}<h3>Warnings</h3><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/WARNINGS}}
{{#STEPS}}<ol>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ol>{{/STEPS}}
{{#TREE_WEAR}}<h3>Wear</h3><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/TREE_WEAR}}
{{#SAYS}}<h3>{{HEADING}}</h3>{{#LINES}}<ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul>{{/LINES}}{{/SAYS}}
</section>
{{/TREE}}
{{#LEFT_OUT}}<section><h2>Not treated</h2><ul>{{#ITEM}}<li>{{TEXT}}</li>{{/ITEM}}</ul></section>{{/LEFT_OUT}}
</body>
</html>
)html";

}  // namespace ashtriage::present
