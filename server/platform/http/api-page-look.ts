/**
 * The API page in the dashboard's look: paper by day, blueprint by night, ink lines, no colour that carries no fact.
 * The tokens are those of web/src/kit/tokens.css; the page is served apart from the dashboard and can't share its files.
 */
export const apiPageLook = `
:root {
  color-scheme: light dark;
  --paper: #f5efe1;
  --paper-2: #ebe3d0;
  --raised: #fbf8f0;
  --ink: #1c2330;
  --ink-2: #4a5261;
  --line: #85847d;
  --quiet: #28577f;
  --accent: #ad2a0c;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #0e1f33;
    --paper-2: #152a43;
    --raised: #13273e;
    --ink: #e9eff5;
    --ink-2: #b6c5d4;
    --line: #5f7b97;
    --quiet: #8cc3f2;
    --accent: #ff9070;
  }
}
/* Thrice the root, to outweigh the page's own night. */
:root:root:root {
  &, body { background: var(--paper); }
  .swagger-ui { background: none; }
  .swagger-ui .topbar { display: none; }
  .swagger-ui .wrapper { max-width: 84rem; }
  .swagger-ui .info { margin: 32px 0 16px; }
  .swagger-ui .info p, .swagger-ui .info li { max-width: 80ch; margin-inline: 0; line-height: 1.5; }
  .swagger-ui, .swagger-ui :not(.microlight, .microlight *, .opblock-summary-method, .version, .version-stamp *) {
    color: var(--ink);
  }
  .swagger-ui .info a, .swagger-ui .info a * , .swagger-ui .model-hint { color: var(--quiet); }
  .swagger-ui .info code, .swagger-ui .markdown code, .swagger-ui .renderedMarkdown code {
    padding: 1px 5px;
    border: 1px solid var(--line);
    background: var(--raised);
    font-weight: 400;
  }
  .swagger-ui .info .title small, .swagger-ui .info .title small.version-stamp {
    border: 1px solid var(--ink);
    border-radius: 2px;
    background: none;
  }
  .swagger-ui .info .title small pre { color: var(--ink); }
  .swagger-ui .scheme-container { margin: 0 0 16px; padding: 12px 0; background: none; box-shadow: none; }
  .swagger-ui .btn, .swagger-ui .btn.authorize {
    min-height: 44px;
    border: 1px solid var(--ink);
    border-radius: 2px;
    background: var(--raised);
    box-shadow: none;
  }
  .swagger-ui .btn.execute { background: var(--ink); color: var(--paper); }
  .swagger-ui svg { fill: var(--ink); }
  .swagger-ui .opblock-tag { min-height: 48px; border-bottom: 2px solid var(--ink); font-size: 1.1875rem; }
  .swagger-ui .opblock-tag:hover { background: var(--paper-2); }
  .swagger-ui .opblock, .swagger-ui .opblock.opblock-deprecated {
    margin: 0 0 8px;
    border: 1px solid var(--ink);
    border-radius: 2px;
    background: var(--raised);
    box-shadow: none;
  }
  .swagger-ui .opblock .opblock-summary { min-height: 44px; border-color: var(--ink); }
  .swagger-ui .opblock .opblock-summary-method {
    min-width: 76px;
    border-radius: 0;
    background: var(--ink);
    color: var(--paper);
    text-shadow: none;
  }
  .swagger-ui .opblock.opblock-get .opblock-summary-method { background: none; color: var(--ink); box-shadow: inset 0 0 0 1px var(--ink); }
  .swagger-ui .opblock .opblock-summary-description { color: var(--ink-2); }
  .swagger-ui .opblock .opblock-section-header, .swagger-ui .dialog-ux .modal-ux, .swagger-ui .dialog-ux .modal-ux-header {
    border-color: var(--ink);
    background: var(--paper-2);
    box-shadow: none;
  }
  .swagger-ui .opblock .tab-header .tab-item.active h4 span::after { background: var(--ink); }
  .swagger-ui .btn.authorize { display: inline-flex; align-items: center; }
  .swagger-ui .btn.authorize span { padding: 0 16px 0 0; }
  .swagger-ui section.models, .swagger-ui section.models .model-container, .swagger-ui section.models.is-open h4,
  .swagger-ui .json-schema-2020-12, .swagger-ui .model-box {
    border-color: var(--line);
    border-radius: 2px;
    background: none;
  }
  .swagger-ui table thead tr td, .swagger-ui table thead tr th { border-color: var(--ink); }
  .swagger-ui input, .swagger-ui select, .swagger-ui textarea {
    min-height: 44px;
    border: 1px solid var(--ink) !important;
    border-radius: 2px;
    background-color: var(--raised) !important;
  }
  .swagger-ui .parameter__name.required::after, .swagger-ui .parameter__name.required span { color: var(--accent); }
  .swagger-ui .highlight-code > .microlight, .swagger-ui .microlight { border-radius: 2px; background: #0e1f33 !important; }
  .swagger-ui :focus-visible { outline: 3px solid var(--quiet); outline-offset: 2px; }
}
@media (max-width: 560px) {
  .swagger-ui .wrapper { padding: 0 12px; }
  .swagger-ui .opblock .opblock-summary { flex-wrap: wrap; }
}
@media (min-width: 2200px) {
  body { zoom: 1.5; }
}
`;
