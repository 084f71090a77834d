"""On every page: Start leads to a picture in sight; whatever has the keyboard is seen."""

import pytest
from conftest import START
from lesson_page import ZOOMED, resize
from playwright.sync_api import Page

MOST = 260  # stops of the keyboard on one page
# What the keyboard is on, and whether it is whole in the page's own pane and uncovered; on
# a bench with the picture that it changes and the sentence that answers, wholly, too.
_MET = """() => {
  const part = document.activeElement;
  const inside = !!part.closest('.jp-Notebook');
  if (!inside) return {inside};
  const pane = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  const whole = part.closest('label') ?? part;
  const box = whole.getBoundingClientRect();
  const upper = Math.max(box.top, pane.top), lower = Math.min(box.bottom, pane.bottom);
  const tall = box.height > pane.height - 8; // then it fills the pane
  const seen = (tall ? lower - upper > pane.height / 2 : lower - upper > box.height - 2)
    && box.left >= 0 && box.right <= innerWidth + 1;
  const bench = part.closest('.kit-sliding :is(.kit-controls, .kit-main-control)');
  const answers = bench?.closest('.kit-sliding:not(.kit-big)')
    ?.querySelectorAll('.kit-bench > .kit-pictured:first-child img, .kit-main-control + *');
  const together = innerHeight < 640 || [...answers ?? []].every((one) => {
    const its = one.getBoundingClientRect();
    return its.top >= pane.top - 1 && its.bottom <= pane.bottom + 1
      && (its.bottom <= box.top + 1 || its.top >= box.bottom - 1);
  });
  const met = document.elementFromPoint((box.left + box.right) / 2, (upper + lower) / 2);
  const name = part.ariaLabel || whole.textContent || part.className;
  const at = `${Math.round(box.top - pane.top)} to ${Math.round(box.bottom - pane.top)}`;
  return {inside, name: `${part.tagName} ${name.trim().slice(0, 40)}: ${at}`,
    well: seen && together && !!met && (whole.contains(met) || met.contains(whole)
      || getComputedStyle(part).pointerEvents === 'none')};  // drawn on top, felt through
}"""
# The same, once it is well, which a page that scrolls to it is soon; or at last.
_SETTLED = f"""async (returns) => {{
  const look = {_MET};
  let met = look();
  for (let tries = 0; (met.inside || returns) && !met.well && tries < 60; tries += 1) {{
    await new Promise((done) => {{ setTimeout(done, 50); }});
    met = look();
  }}
  return met;
}}"""
# The first picture of the first part that ran, or what it has instead, against its pane.
_SIGHT = """() => {
  const pane = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
  const view = document.querySelector('.jp-OutputArea-output .kit-view');
  const first = view.querySelector('img') ?? view.querySelector('input, select, button');
  const box = first.getBoundingClientRect();
  return box.top >= pane.top && box.bottom <= pane.bottom
    && view.contains(document.activeElement);
}"""
# What kind of control of ours has the keyboard.
_KIND = """() => {
  const part = document.activeElement;
  return part.closest('.kit-view') ? `${part.tagName} ${part.type ?? ''}` : '';
}"""
# Wait until nothing of the page has changed for a while: Python has answered.
_QUIET = """() => new Promise((done) => {
  let last = 0;
  const end = () => { watch.disconnect(); done(); };
  const again = () => { clearTimeout(last); last = setTimeout(end, 120); };
  const watch = new MutationObserver(again);
  const all = { attributes: true, childList: true, subtree: true };
  watch.observe(document.querySelector('.jp-Notebook'), all);
  again();
  setTimeout(end, 2000);
})"""
# What of a bench lies under the picture and the sentence that stay in sight, once the page
# came to it, from above or from below, as a click, a jump or the keyboard makes it come:
# it, or the name above it.
_COVERED = """() => {
  const found = new Set();
  const pane = document.querySelector('.jp-WindowedPanel-outer');
  const stays = '.kit-stay, .kit-main-control + [role="status"]';
  const kinds = 'button, label, legend, select, summary, dt, input, .kit-name';
  const parts = [...document.querySelectorAll('.kit-view.kit-sliding')].flatMap((view) =>
    [...view.querySelectorAll(kinds)]).filter((part) => part.getClientRects().length
      && !part.closest('.kit-pictured, details:not([open]) > :not(summary)'));
  for (const part of parts) {
    const first = part.matches('label:first-of-type');
    const held = part.closest(first ? 'fieldset' : '.kit-slider');
    const name = held?.querySelector('legend, .kit-name');
    for (const block of ['start', 'nearest']) {
      if (block === 'nearest') pane.scrollBy(0, 400);
      part.scrollIntoView({ block, behavior: 'instant' });
      for (const one of [part, ...(name ? [name] : [])]) {
        const box = one.getBoundingClientRect();
        const [x, y] = [box.left + Math.min(box.width / 2, 40), box.top + box.height / 2];
        if (document.elementFromPoint(x, y)?.closest(stays)) {
          found.add(`${block}: ${(one.ariaLabel || one.textContent).trim().slice(0, 40)}`);
        }
      }
    }
  }
  return [parts.length, [...found]];
}"""
PRESSED = {
    "BUTTON button": "Enter",
    "BUTTON submit": "Enter",
    "SUMMARY ": "Enter",
    "SELECT select-one": "ArrowDown",
    "INPUT radio": "Space",
    "INPUT range": "ArrowRight",
}


def settled(page: Page, *, returns: bool = False) -> dict:
    """Say what the keyboard is on once the page no longer scrolls to it.

    Where what had it may have gone, it returns to the page after a moment.
    """
    return page.evaluate(_SETTLED, returns)


def start_leads_on(page: Page) -> bool:
    """Say whether the first picture is in sight after Start, and has the keyboard."""
    return page.evaluate(_SIGHT)


def _used(page: Page, met: dict) -> list[str]:
    """Use what has the keyboard; say whether what opens, grows or goes loses its place."""
    key = PRESSED.get(page.evaluate(_KIND))
    if not key:
        return []
    page.keyboard.press(key)
    page.evaluate(_QUIET)
    after = settled(page, returns=True)
    return [] if after.get("well") else [f"{key} on {met['name']}: {after.get('name')}"]


def _out_of_sight(page: Page, key: str, *, use: bool) -> list[str]:
    """Press a key that leads on until it leaves the page; name what is not seen then."""
    found = []
    for _ in range(MOST):
        page.keyboard.press(key)
        met = settled(page)
        if not met["inside"]:
            return found
        if not met["well"]:
            found.append(met["name"])
        if use:
            found += _used(page, met)
    pytest.fail(f"{key} does not come to an end")


def lost_on_the_way_down(page: Page, *, use: bool = False) -> list[str]:
    """Give what is met by Tab and not seen; if used, also what a key took out of sight."""
    page.locator(START).focus()
    return _out_of_sight(page, "Tab", use=use)


def covered_by_what_stays(page: Page) -> list[str]:
    """Give what of the benches lies under what stays in sight when the page goes to it."""
    resize(page, 1280, 800)
    met, found = page.evaluate(_COVERED)
    assert met
    return found


def lost_on_the_way_up(page: Page) -> list[str]:
    """Give what is met by Shift and Tab and not seen, on a small screen."""
    page.set_viewport_size(ZOOMED)
    page.locator("a").last.focus()
    return _out_of_sight(page, "Shift+Tab", use=False)
