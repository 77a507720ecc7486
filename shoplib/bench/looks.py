"""How the bench looks: layouts, and the small pieces of HTML that the widgets show.

Only inline styles: a style sheet of one bench would reach into the next. Colours come from the
page's theme, the accents from the Okabe-Ito palette, and no meaning hangs on a colour alone.
"""

from html import escape

from ipywidgets import Layout

SLIDER = Layout(flex="1 1 auto", width="auto", height="44px", margin="0 8px 0 8px")
# A text box is 28 px high unless it stands in a column, where it fills its layout's height.
BOX = Layout(flex="0 0 128px", width="128px", height="40px", flex_flow="column", align_items="stretch")
NUMBER = Layout(height="74px", width="auto", flex_flow="column", align_items="flex-start")
TYPED = {"font_size": "16px"}
CONTROL = Layout(flex="1 1 300px", min_width="300px", margin="0 8px 6px 0", overflow="visible")
CONTROLS = Layout(flex="1 1 330px", flex_flow="row wrap", align_content="flex-start", min_width="300px")
PICTURE = Layout(flex="3 1 600px", min_width="320px", margin="0 16px 8px 0")
TOP = Layout(flex_flow="row wrap", align_items="flex-start", width="100%")
COLUMN = Layout(width="100%", overflow="visible")
MEASURED = Layout(height="40px", width="128px", margin="3px 4px", flex_flow="column", align_items="stretch")
NOT_MEASURED = Layout(height="40px", width="128px", margin="3px 4px", visibility="hidden")
BUTTON = Layout(width="auto", height="40px", margin="2px 6px 2px 0")
LABEL = Layout(margin="2px 8px 2px 2px")
LINK = "color:var(--jp-content-link-color,#1565c0);text-decoration:underline"
WIDE = Layout(flex="1 1 auto", width="auto", min_width="0")


def row():
    """A row that wraps, with a layout of its own: it may be hidden."""
    return Layout(flex_flow="row wrap", align_items="center", width="100%")


ROW_HEIGHT, HEAD_HEIGHT = 46, 34
FACE = "font-family:'DejaVu Sans',Verdana,'Segoe UI',Arial,sans-serif;color:var(--jp-content-font-color1,#111);"
QUIET = "color:var(--jp-content-font-color2,#555);"


def head(item):
    """An input's name above its slider."""
    symbol = f" <i>{_letter(item.symbol)}</i>" if len(item.symbol) < 8 else ""
    return (
        f'<div style="{FACE}line-height:1.35;font-size:16px" title="{escape(item.help)}">'
        f"{escape(item.words)}{symbol}</div>"
    )


def wrong(note):
    """What was wrong with what was typed."""
    return (
        f"<div role='alert' style=\"{FACE}font-size:14px;line-height:1.35;border-left:4px solid #d55e00;"
        f'padding-left:8px">✗ {escape(note)}</div>'
    )


def note_layout():
    """A line of its own that takes no room until it is shown."""
    return Layout(display="none", width="100%")


_GREEK = {"sigma": "σ", "epsilon": "ε", "mu": "μ", "beta": "β", "gamma": "γ", "rho": "ρ", "theta": "θ", "psi": "ψ"}
_GREEK |= {"tau": "τ", "phi": "φ", "varphi": "φ"}


def _letter(symbol):
    """A symbol as HTML: Greek letters by their sign, what follows the underscore set low."""
    letter, _, low = symbol.partition("_")
    return escape(_GREEK.get(letter, letter)) + (f"<sub>{escape(low)}</sub>" if low else "")


def picture(svg, problem="", heading="This cannot be made."):
    """The drawing; where the sizes cannot be made, the last good one greyed under a sentence that says why."""
    if not problem:
        return f"<div>{svg}</div>"
    return (
        f"<div style='position:relative'><div style='opacity:0.35'>{svg}</div>"
        f"<div role='alert' style=\"{FACE}position:absolute;left:3%;right:3%;top:8%;padding:14px 18px;background:#fff;"
        f'color:#111;border:3px dashed #d55e00;font-size:18px;line-height:1.4"><b>✗ {heading}</b> '
        f"{escape(problem)}<br><small>The drawing behind shows the last sizes that could.</small></div></div>"
    )


def settings(heading, rows):
    """The table of settings: rows of (words, symbol, text, decimal, help, problem), of fixed height for the boxes."""
    body = "".join(_setting(*row) for row in rows)
    return (
        f'<table style="{FACE}width:100%;border-collapse:collapse;font-size:16px;table-layout:fixed">'
        f"<tr style='height:{HEAD_HEIGHT}px;text-align:left'><th>What</th>"
        f"<th style='width:46%'>{escape(heading)}</th></tr>{body}</table>"
    )


def _setting(words, symbol, text, decimal, help, problem):
    size = f"<b style='font-size:20px;white-space:nowrap'>{escape(text)}</b>"
    small = f" <span style='{QUIET}font-size:13px'>{escape(decimal or problem)}</span>" if decimal or problem else ""
    cell = "overflow:hidden;padding:0 6px 0 0;border-top:1px solid var(--jp-border-color2,#ccc);line-height:1.15"
    return (
        f"<tr style='height:{ROW_HEIGHT}px' title=\"{escape(help)}\"><td style='{cell}'>{escape(words)} "
        f"<i style='{QUIET}'>{_letter(symbol)}</i></td><td style='{cell}'>{size}{small}</td></tr>"
    )


def verdicts(lines):
    """What each measurement tells, beside its box."""
    body = "".join(
        f"<div style='height:{ROW_HEIGHT}px;overflow:hidden;display:flex;align-items:center;line-height:1.2'>"
        f"<span>{escape(line)}</span></div>"
        for line in lines
    )
    return f"<div role='status' style=\"{FACE}font-size:14px\"><div style='height:{HEAD_HEIGHT}px'></div>{body}</div>"


def cautions(found, unit):
    """The cautions, each with its source."""
    if not found:
        return f'<div style="{FACE}{QUIET}min-height:30px;font-size:15px">No cautions for these sizes.</div>'
    items = "".join(
        f"<div style='border-left:5px solid #e69f00;padding:4px 10px;margin:4px 0'><b>⚠ Caution.</b> "
        f"{escape(each.tell(unit))} <span style='{QUIET}'>({escape(each.source)})</span></div>"
        for each in found
    )
    return f'<div style="{FACE}font-size:16px;line-height:1.35;min-height:30px">{items}</div>'


def table(head, rows):
    """A plain table of texts."""
    cell = "padding:3px 12px 3px 0;border-top:1px solid var(--jp-border-color2,#ccc);text-align:left"
    titles = "".join(f"<th style='{cell}'>{escape(each)}</th>" for each in head)
    whole = f"{cell};white-space:nowrap"
    body = "".join(
        f"<tr><td style='{cell}'>{escape(first)}</td>"
        + "".join(f"<td style='{whole}'>{escape(each)}</td>" for each in others)
        + "</tr>"
        for first, *others in rows
    )
    return (
        f"<div style='{OWN_SCROLL}'><table style=\"{FACE}font-size:15px;line-height:1.3;border-collapse:collapse\">"
        f"<tr>{titles}</tr>{body}</table></div>"
    )


# Wider than the page only inside its own frame; the frame itself never stretches what it stands in.
OWN_SCROLL = "overflow-x:auto;width:0;min-width:100%"


def paragraph(text, size=15):
    return f'<div style="{FACE}font-size:{size}px;line-height:1.4">{text}</div>'


def told(right, said):
    """The verdict on an answer: a mark and a sentence."""
    mark, colour = ("✓", "#009e73") if right else ("✗", "#d55e00")
    return (
        f"<div role='status' style=\"{FACE}font-size:16px;line-height:1.35;border-left:5px solid {colour};"
        f'padding-left:10px;margin:4px 0"><b>{mark}</b> {escape(said)}</div>'
    )
