"""What is looked at inside a page: pieces of script that tell what they found."""

WATCH = """handle => {
  const panel = document.querySelector('.jp-WindowedPanel-outer');
  const drawn = [...document.querySelectorAll('svg[aria-label]')];
  const pictures = drawn.map(svg => svg.closest('[data-place=picture]'));
  const seen = window.seen = {tops: [], pictures: drawn.length, least: drawn.length, frames: 0, on: true};
  const look = () => {
    if (!seen.on) return;
    seen.frames += 1;
    seen.tops.push([panel.scrollTop, handle.getBoundingClientRect().top]);
    seen.least = Math.min(seen.least, pictures.filter(each => each.querySelector('svg')).length);
    requestAnimationFrame(look);
  };
  look();
}"""
SEEN = "() => { window.seen.on = false; return window.seen }"
# What stands on the bench of a control: its box, drawing and texts, alerts, first result.
READ = """control => {
  const bench = control.closest('.jp-OutputArea-output');
  return {
    text: control.querySelector('input[type=text]').value,
    shown: bench.querySelector('svg[aria-label]').outerHTML + bench.textContent,
    alerts: [...bench.querySelectorAll('[role=alert]')].map(each => each.textContent),
    result: bench.querySelector('[data-result]').textContent,
  };
}"""
TOO_WIDE = """() => {
  const found = [], panel = document.querySelector('.jp-WindowedPanel-outer');
  const tell = (what, each) => found.push(`${what}: ${(each.title || each.textContent).slice(0, 60)}`);
  const edge = panel.getBoundingClientRect().right;
  if (panel.scrollWidth > panel.clientWidth) found.push('the page can be moved sideways');
  for (const each of document.querySelectorAll('.jp-Placeholder-content'))
    if (each.getBoundingClientRect().right > edge) tell('first line too long', each);
  const shown = [...document.querySelectorAll('.jp-OutputArea-output, .jp-OutputArea-output *')]
    .filter(e => e.checkVisibility({visibilityProperty: true}) && !e.closest('svg, math, mjx-container'));
  for (const each of shown) {
    const {overflowX, overflowY} = getComputedStyle(each), box = each.getBoundingClientRect();
    const isOutput = each.matches('.jp-OutputArea-output');
    const wide = each.scrollWidth > each.clientWidth + !isOutput, high = each.scrollHeight > each.clientHeight + 1;
    const may = e => e && (['auto', 'scroll'].includes(getComputedStyle(e).overflowX)
      || may(e.parentElement.closest('.jp-OutputArea-output *')));
    if (box.right > edge + 1 && !may(each)) tell('beyond the edge', each);
    if (isOutput) {
      if (wide && !each.querySelector('mjx-container')) tell('an output with a scrollbar of its own', each);
      continue;
    }
    if (wide && overflowX === 'hidden') tell('cut off at the side', each);
    if (high && overflowY === 'hidden') tell('cut off below', each);
    if (wide && each.matches('input, button')) tell('words cut off', each);
  }
  const small = shown.filter(each => each.matches('input, button, select'));
  for (const [i, a] of small.entries()) for (const b of small.slice(i + 1)) {
    const p = a.getBoundingClientRect(), q = b.getBoundingClientRect();
    if (p.left < q.right - 1 && q.left < p.right - 1 && p.top < q.bottom - 1 && q.top < p.bottom - 1)
      found.push(`${a.title} lies on ${b.title}`);
  }
  return found;
}"""
IN_REACH = """() => [...document.querySelectorAll('.jp-OutputArea-output :is(input, button, select)')]
  .filter(each => each.checkVisibility({visibilityProperty: true}))
  .map(each => ({
    height: each.getBoundingClientRect().height,
    name: each.labels?.[0]?.textContent || (each.matches('button') ? each.textContent : '') || each.title,
    title: each.title,
  }))"""

# Which parts of a bench are out of view when it stands at the top of the page.
IN_VIEW = """async svg => {
  const outer = document.querySelector('.jp-WindowedPanel-outer'), bench = svg.closest('.jp-OutputArea-output');
  const panel = outer.getBoundingClientRect(), above = () => bench.getBoundingClientRect().top - panel.top;
  for (let calm = 0; calm < 6; await new Promise(requestAnimationFrame)) {  // what comes into view moves the rest
    calm = Math.abs(above()) < 1 ? calm + 1 : 0;
    const before = outer.scrollTop;
    outer.scrollTop += above();
    if (outer.scrollTop === before && calm === 0) calm = 6;  // the end of the page
  }
  return [svg, ...bench.querySelectorAll('input[type=range], [data-result]')]
    .filter(each => each.getBoundingClientRect().bottom > panel.bottom + 1)
    .map(each => `${each.title || each.tagName}: ${each.getBoundingClientRect().bottom - panel.bottom} px below`);
}"""
CONTRAST = r"""() => {
  const light = colour => {
    const [r, g, b] = colour.match(/[\d.]+/g).map(each => each / 255)
      .map(each => each <= 0.04045 ? each / 12.92 : ((each + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const fields = '.jp-OutputArea-output :is(select, [data-press], input[type=text])';
  return [...document.querySelectorAll(fields)].map(each => {
    const {color, backgroundColor} = getComputedStyle(each);
    const [dark, bright] = [light(color), light(backgroundColor)].sort((a, b) => a - b);
    return [each.title, (bright + 0.05) / (dark + 0.05)];
  });
}"""
THEME = "theme => window.jupyterapp.commands.execute('apputils:change-theme', {theme})"

MODELS = """async () => (await window.jupyterapp.shell.currentWidget.sessionContext.session.kernel
  .requestCommInfo({target_name: 'jupyter.widget'})).content.comms"""


def out_of_reach(page):
    """Fields and buttons that have no name, a title of nothing, or no room for a finger."""
    found = page.evaluate(IN_REACH)
    return [each for each in found if not each["name"].strip() or each["title"] == "null" or each["height"] < 40]
