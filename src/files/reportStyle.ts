// The inline style of the report's page: the same drawing as the app, ink on paper. No address in it may be loaded.

export const reportStyle = `
:root{color-scheme:light;--ink:#16191b;--quiet:#55595a;--line:#7d7c73;--red:#b3211a;--blue:#1b4c8c}
*{box-sizing:border-box}
body{margin:0 auto;max-width:60rem;padding:1.5rem 1rem;background:#fff;color:var(--ink);font:400 1rem/1.4 "IBM Plex Sans Condensed","Arial Narrow",system-ui,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:break-word}
h1{font-size:2.2rem;line-height:1.1;margin:.1rem 0 .4rem}
h2{font-size:1.15rem;margin:0 0 .4rem}
h3{font-size:1rem;margin:.2rem 0}
p{margin:.2rem 0}
.lead{font-size:1.15rem}
.quiet,dt,th,footer{color:var(--quiet)}
.red{color:var(--red)}
section{margin-top:1.2rem}
.head{display:flex;justify-content:space-between;gap:1rem;padding-top:.5rem;border-top:2px solid var(--ink)}
.line{display:block}
.name{overflow-wrap:anywhere}
dl{margin:.3rem 0;display:flex;flex-wrap:wrap;gap:.2rem 1.5rem}
dl>div{max-width:100%}
dt{font-size:.875rem}
dd{margin:0;font-weight:600;overflow-wrap:anywhere}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:top;padding:.3rem .75rem .3rem 0;border-bottom:1px solid #c4c1b3;overflow-wrap:anywhere}
th{font-weight:400}
td,th{min-width:4rem}
td:first-child{min-width:5rem}
th.number,td.number{min-width:3rem;padding-right:0;padding-left:.5rem}
.number+:not(.number){padding-left:1rem}
.number{text-align:right}
.sum td{font-weight:600;border-top:1px solid var(--ink);border-bottom:0}
article{padding:.5rem .75rem;border-left:3px solid var(--red);margin:.5rem 0;break-inside:avoid}
article.hazard{border:3px solid var(--red)}
article.undecided{border-left:3px dashed var(--blue)}
article dd{font-weight:400}
.label{border:1px dashed var(--line);overflow-wrap:anywhere;padding:0 .35em;margin:0 .2rem .2rem 0;font:600 .95em "IBM Plex Mono",ui-monospace,monospace}
.found{border:1.5px solid var(--ink)}
ul,ol{margin:.3rem 0;padding-left:1.2rem}
li{margin:.3rem 0}
li.hazard{list-style:none;margin-left:-1.2rem;border:3px solid var(--red);padding:.3rem .6rem}
footer{margin-top:1.5rem;border-top:2px solid var(--ink);padding-top:.5rem;font-size:.9rem}
@media screen and (max-width:44rem){.stacks thead{display:none}.stacks,.stacks tbody,.stacks tr,.stacks .number+:not(.number),.stacks td{display:block}.stacks tr{padding:.4rem 0;border-bottom:1px solid #c4c1b3}.stacks .number+:not(.number),.stacks td{display:block;position:relative;min-height:1.5em;border:0;padding:.1rem 0 .1rem 7rem;text-align:left}.stacks td:empty{display:none}.stacks td::before{content:attr(data-head);position:absolute;left:0;width:6.5rem;color:var(--quiet)}}
@page{margin:15mm}
@media print{body{max-width:none;padding:0}tr{break-inside:avoid}h2{break-after:avoid}}
`;
