"""How the bench looks: the HTML of its parts, and layouts for the few plain widgets beside it.

Only inline styles: a style sheet of one bench would reach into the next. Colours come from the
page's theme, the accents from the Okabe-Ito palette, and no meaning hangs on a colour alone.
"""

from html import escape

from shoplib.model import capital

# Layouts are written out for each widget anew: a shared one that somebody closes would take all others along.
BOX = {"flex": "0 0 128px", "width": "128px", "height": "40px", "flex_flow": "column", "align_items": "stretch"}
NUMBER = {"height": "74px", "width": "auto", "flex_flow": "column", "align_items": "flex-start"}
TYPED = {"font_size": "16px"}
COLUMN = {"width": "100%", "overflow": "visible", "margin": "0"}
BUTTON = {"width": "auto", "height": "40px", "margin": "2px 6px 2px 0"}
LABEL = {"margin": "2px 8px 2px 2px"}
LINK = "color:var(--jp-content-link-color,#1565c0);text-decoration:underline"
WIDE = {"flex": "1 1 auto", "width": "auto", "min_width": "0"}


def row():
    """A row that wraps."""
    return {"flex_flow": "row wrap", "align_items": "center", "width": "100%", "margin": "0"}


FACE = "font-family:'DejaVu Sans',Verdana,'Segoe UI',Arial,sans-serif;color:var(--jp-content-font-color1,#111);"
QUIET = "color:var(--jp-content-font-color2,#555);"
LINE = "1px solid var(--jp-border-color2,#ccc)"
FIELD = (
    f"{FACE}height:40px;box-sizing:border-box;margin:0;padding:0 6px;font-size:16px;"
    "background:var(--jp-layout-color1,#fff);border:1px solid var(--jp-border-color0,#999);border-radius:3px"
)
PRESSED = (
    f"{FACE}min-height:40px;box-sizing:border-box;margin:0;padding:4px 12px;font-size:15px;cursor:pointer;"
    f"background:var(--jp-layout-color2,#eee);border:1px solid var(--jp-border-color1,#bbb);border-radius:3px"
)

# On what the keyboard moves or presses, the notebook's own keys must not be heard.
KEYS = 'data-lm-suppress-shortcuts="true"'


# The parts of a page -----------------------------------------------------------------------------------------


def page(left, right, below=""):
    """Two columns side by side where there is room; `below` stands under both.

    Where there is not, all parts follow one another in the order that each `part` tells. The right column, where
    the inputs are, comes first for the keyboard.
    """
    columns = "".join(
        f"<div style='order:{order};flex:{share} 1 0;min-width:0;flex-direction:column;gap:6px;display:flex'>"
        f"{''.join(parts)}</div>"
        for order, share, parts in ((2, 1, right), (1, 1.2, left))
    )
    return (
        f"<div style=\"{FACE}width:100%\"><div data-columns style='display:flex;gap:10px 24px'>{columns}</div>"
        f"{below}</div>"
    )


def part(order, content):
    return f"<div style='order:{order};min-width:0'>{content}</div>"


def place(name, tag="div", style="", more=""):
    """An empty place, filled later."""
    return f"<{tag} data-place='{name}' style=\"{style}\" {more}></{tag}>"


def pictured(width, height):
    """The place of a picture: it keeps its room whatever stands in it."""
    return place("picture", style=f"aspect-ratio:{width:g}/{height:g}")


def button(name, value, words, title, mark=""):
    """A button; a `mark` is a place before its words."""
    mark = place(mark, "span") if mark else ""
    return (
        f'<button type="button" {KEYS} data-press="{name}" data-value="{escape(value)}" title="{escape(title)}" '
        f'style="{PRESSED}">{mark}{escape(words)}</button>'
    )


def opener(name, words, title):
    """A button that lets a person choose a file."""
    return (
        f'<button type="button" {KEYS} data-open="{name}" title="{escape(title)}" style="{PRESSED}">{escape(words)}'
        "</button>"
    )


def buttons(*made):
    return f"<div style='display:flex;flex-wrap:wrap;align-items:center;gap:6px'>{''.join(made)}</div>"


def options(name, words, title):
    """Buttons of which one is chosen: it is told by its mark, never by colour alone."""
    return [button(name, word, word, f"{title}{word}", f"{name}.{k}") for k, word in enumerate(words)]


def marks(name, chosen):
    """What stands in the marks of `options`, for pairs of a word and whether it is the chosen one."""
    return {f"{name}.{k}": "● " if each else "○ " for k, (_, each) in enumerate(chosen)}


def field(name, title, hint="", width=112, more=""):
    """A box to type into."""
    return (
        f'<input type="text" data-ask="{name}" data-place="{name}" title="{escape(title)}" '
        f'aria-label="{escape(title)}" placeholder="{hint}" autocomplete="off" spellcheck="false" {more}'
        f'style="{FIELD};flex:0 0 {width}px;width:{width}px">'
    )


def listed(name, title, options):
    """A list that folds out; options are pairs of words and value."""
    inside = "".join(f'<option value="{escape(value)}">{escape(words)}</option>' for words, value in options)
    return (
        f'<select {KEYS} data-ask="{name}" data-place="{name}" title="{escape(title)}" aria-label="{escape(title)}" '
        f'style="{FIELD};max-width:100%">{inside}</select>'
    )


# Inputs ------------------------------------------------------------------------------------------------------


def inputs(groups):
    """All controls, under their headings where they stand in groups: pairs of heading and the controls' HTML."""
    heading = f"grid-column:1/-1;font-weight:bold;font-size:15px;border-bottom:{LINE};margin:2px 0"
    inside = "".join(
        (f"<div style='{heading}'>{escape(capital(name))}</div>" if name else "") + "".join(made)
        for name, made in groups
    )
    return (
        "<div style='display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,250px),1fr));"
        f"gap:2px 20px;align-items:start'>{inside}</div>"
    )


def control(item, slide, box, note):
    """An input's name, its slider and its box; below them a place for what was wrong."""
    name = escape(f"{item.words}. {item.help}")
    hint = "left out" if item.optional else "size and unit"
    return (
        f"<div style='min-width:0'>{head(item)}<div style='display:flex;align-items:center;gap:10px'>"
        f'<input type="range" step="1" {KEYS} data-ask="{slide}" data-place="{slide}" title="{name}" '
        f'aria-label="{escape(item.words)}" style="flex:1 1 0;min-width:0;width:0;height:40px;margin:0;'
        f'accent-color:var(--jp-brand-color1,#0072b2);cursor:pointer">'
        f"{field(box, f'{item.words}. {item.help}', hint)}</div>{place(note)}</div>"
    )


MOST_BUTTONS, MOST_LETTERS = 6, 50


def is_list(options):
    """Whether these are too many for buttons side by side, or their words too long."""
    return len(options) > MOST_BUTTONS or sum(map(len, options)) > MOST_LETTERS


def choice(item, name, words):
    """An input that is one of a few words."""
    inside = (
        listed(name, f"{item.words}. {item.help}", [(word, word) for word in words])
        if is_list(words) else buttons(*options(name, words, f"{item.words}: "))
    )
    return f"<div style='min-width:0'>{head(item)}{inside}</div>"


def offered(offer, name, words):
    """A list that fills several inputs at once."""
    title = f"{offer.words}. {offer.help}"
    named = f'<div style="line-height:1.35;font-size:16px" title="{escape(offer.help)}">{escape(offer.words)}</div>'
    return f"<div style='min-width:0'>{named}{listed(name, title, [(word, word) for word in words])}</div>"


def head(item):
    """An input's name above its slider."""
    symbol = f" <i>{_letter(item.symbol)}</i>" if len(item.symbol) < 8 else ""
    name = escape(item.words) + symbol
    return f'<div style="line-height:1.35;font-size:16px" title="{escape(item.help)}">{name}</div>'


_GREEK = {"sigma": "σ", "epsilon": "ε", "mu": "μ", "beta": "β", "gamma": "γ", "rho": "ρ", "theta": "θ", "psi": "ψ"}
_GREEK |= {"tau": "τ", "phi": "φ", "varphi": "φ", "alpha": "α", "nu": "ν", "lambda": "λ"}


def _letter(symbol):
    """A symbol as HTML: Greek letters by their sign, what follows the underscore set low."""
    letter, _, low = symbol.partition("_")
    return escape(_GREEK.get(letter, letter)) + (f"<sub style=\"line-height:0\">{escape(low)}</sub>" if low else "")


def wrong(note):
    """What was wrong with what was typed, below the box so that the box stays under the hand."""
    return (
        f"<div role='alert' style=\"font-size:14px;line-height:1.35;border-left:4px solid #d55e00;"
        f'padding-left:8px;margin-bottom:4px">✗ {escape(note)}</div>'
    )


# Picture and settings ----------------------------------------------------------------------------------------


def picture(svg, problem="", heading="This cannot be made."):
    """The drawing; where the sizes cannot be made, the last good one greyed under a sentence that says why."""
    if not problem:
        return svg
    return (
        f"<div style='position:relative'><div style='opacity:0.35'>{svg}</div>"
        f"<div role='alert' style=\"position:absolute;left:3%;right:3%;top:8%;padding:14px 18px;background:#fff;"
        f'color:#111;border:3px dashed #d55e00;font-size:18px;line-height:1.4"><b>✗ {heading}</b> '
        f"{escape(problem)}<br><small>The drawing behind shows the last sizes that could.</small></div></div>"
    )


def settings(parts):
    """The settings under their headings: rows of (name, words, symbol, help, measurable), with places for sizes and
    verdicts.

    They stand two by two where there is room, each with a box for what was measured.
    """
    return "".join(_settings_under(heading, rows, first=k == 0) for k, (heading, rows) in enumerate(parts))


def _settings_under(heading, rows, first):
    """One part of the settings; the first heading says what the boxes are for."""
    said = f"<span style='{QUIET}'>, and beside it what you measured</span>" if first else ""
    above = "" if first else "margin-top:2px;"
    return (
        f"<div style='{above}font-size:16px'><b>{escape(heading)}</b>{said}</div>"
        "<div style='display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,290px),1fr));gap:0 20px'>"
        f"{''.join(_setting(*each) for each in rows)}</div>"
    )


def _setting(name, words, symbol, help, measurable):
    box = field(f"measured.{name}", f"What you measured: {words}", "size and unit", 118) if measurable else ""
    size = place(f"set.{name}", style="white-space:nowrap;line-height:1.15")
    return (
        f'<div data-result="{name}" title="{escape(help)}" style="border-top:{LINE};padding:1px 0">'
        "<div style='display:flex;align-items:center;gap:8px'><div style='flex:1 1 auto;min-width:0'>"
        f"<div style='font-size:15px;line-height:1.15'>{escape(words)} <i style='{QUIET}'>{_letter(symbol)}</i></div>"
        f"{size}</div>{box}</div>"
        f"{place(f'told.{name}', style='font-size:14px;line-height:1.2', more='role=status')}</div>"
    )


def size(text, decimal=""):
    """One size among the settings; decimal inches stand beside the fraction."""
    small = f" <span style='{QUIET}font-size:14px'>({escape(decimal)})</span>" if decimal else ""
    return f"<b style='font-size:20px'>{escape(text)}</b>{small}"


def quiet(text):
    return f"<span style='{QUIET}'>{escape(text)}</span>" if text else ""


def plans(made):
    """Plans, the tables among them beside each other where there is room."""
    return f"<div style='display:flex;flex-wrap:wrap;gap:6px 32px;align-items:flex-start'>{''.join(made)}</div>"


def plan(heading, text):
    """A plan that is told in one line."""
    return f"<div style='flex:1 1 100%;font-size:16px'><b>{escape(heading)}:</b> {escape(text)}</div>"


def plan_table(heading, head, rows):
    """A plan of several columns."""
    above = f"<div style='font-size:16px;width:0;min-width:100%'><b>{escape(heading)}</b></div>"
    return f"<div style='max-width:100%'>{above}{table(head, rows, 'overflow-x:auto')}</div>"


def cautions(found, unit):
    """The cautions, each with its source."""
    if not found:
        return f'<div style="{QUIET}min-height:28px;font-size:15px">No cautions for these sizes.</div>'
    items = "".join(
        f"<div style='border-left:5px solid #e69f00;padding:2px 10px;margin:0 0 4px'><b>⚠ Caution.</b> "
        f"{escape(each.tell(unit))} <span style='{QUIET}'>({escape(each.source)})</span></div>"
        for each in found
    )
    return f'<div style="font-size:16px;line-height:1.35;min-height:28px">{items}</div>'


def marked(heading, about, rows, key):
    """A list of (mark, words, beside, stands out) in columns; what stands out is marked and bold, not coloured."""
    line = "break-inside:avoid;display:flex;gap:6px;padding:1px 0;line-height:1.25"
    items = "".join(
        f"<div style='{line}'><span aria-hidden='true'>{mark}</span>"
        f"<span style='flex:1 1 auto;min-width:0;{'font-weight:bold' if stands_out else ''}'>{escape(words)}</span>"
        f"<span style='{QUIET}'>{escape(beside)}</span></div>"
        for mark, words, beside, stands_out in rows
    )
    return (
        f"<div style='font-size:16px;margin-top:4px'><b>{escape(heading)}</b></div>"
        f"<div style=\"{QUIET}font-size:14px\" role='status'>{escape(about)}. {escape(key)}</div>"
        f"<div style='font-size:14px;columns:2 230px;column-gap:20px'>{items}</div>"
    )


# Wider than the page only inside its own frame; the frame itself never stretches what it stands in.
OWN_SCROLL = "overflow-x:auto;width:0;min-width:100%"


def table(head, rows, frame=OWN_SCROLL):
    """A plain table of texts; columns after the first keep their lines whole."""
    cell = f"padding:3px 12px 3px 0;border-top:{LINE};text-align:left;vertical-align:top"
    titles = "".join(f"<th style='{cell}'>{escape(each)}</th>" for each in head)
    whole = f"{cell};white-space:nowrap"
    body = "".join(
        f"<tr><td style='{cell}'>{escape(first)}</td>"
        + "".join(f"<td style='{whole}'>{escape(each)}</td>" for each in others)
        + "</tr>"
        for first, *others in rows
    )
    return (
        f"<div style='{frame}'><table style=\"{FACE}font-size:15px;line-height:1.3;border-collapse:collapse\">"
        f"<tr>{titles}</tr>{body}</table></div>"
    )


def sentences(head, rows):
    """A table of which first and last column are sentences that wrap, the others short."""
    cell = f"padding:3px 12px 3px 0;border-top:{LINE};text-align:left;vertical-align:top"
    titles = "".join(f"<th style='{cell}'>{escape(each)}</th>" for each in head)
    body = "".join(
        "<tr>" + "".join(f"<td style='{cell}'>{escape(each)}</td>" for each in row) + "</tr>" for row in rows
    )
    style = f"{FACE}font-size:15px;line-height:1.3;border-collapse:collapse"
    return f'<table style="{style}"><tr>{titles}</tr>{body}</table>'


def paragraph(text, size=15):
    return f'<div style="{FACE}font-size:{size}px;line-height:1.4">{text}</div>'


def told(right, said):
    """The verdict on an answer: a mark and a sentence."""
    mark, colour = ("✓", "#009e73") if right else ("✗", "#d55e00")
    return (
        f"<div role='status' style=\"{FACE}font-size:16px;line-height:1.35;border-left:5px solid {colour};"
        f'padding-left:10px;margin:4px 0"><b>{mark}</b> {escape(said)}</div>'
    )


def panes(made):
    """Panes beside each other where there is room."""
    return f"<div style='display:flex;flex-wrap:wrap;gap:4px 28px;align-items:flex-start'>{''.join(made)}</div>"


def pane(content, name):
    """A pane that can be hidden."""
    return f"<div data-place='{name}' style='flex:1 1 max(46%,400px);min-width:0'>{content}</div>"
