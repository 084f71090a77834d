// What sticks out of its card, covers another part, or makes the page scroll sideways; what
// is too small to be met, or torn; a sentence that a screen reader is not told of.
() => {
  const faults = [];
  // as it is laid: what stays in sight lies over what is scrolled under it, as it should
  const stays = [...document.querySelectorAll('.kit-stay, .kit-main-control + *')];
  for (const one of stays) one.style.position = 'static';
  const page = document.querySelector('.jp-WindowedPanel-outer');
  if (page.scrollWidth > page.clientWidth) faults.push('the page scrolls sideways');
  const kinds = 'button, label, legend, summary, dt, dd, li, .kit-frame, .kit-head, ' +
    '.kit-says, .kit-ask, .kit-fine, input[type=range]';
  for (const says of document.querySelectorAll('.kit-says')) {
    if (!says.closest('[role=status]')) faults.push(`not spoken: ${says.textContent}`);
  }
  for (const round of document.querySelectorAll('.kit-choice input:not(.kit-bar *)')) {
    const letters = parseFloat(getComputedStyle(round.parentElement).fontSize);
    if (round.getClientRects().length && round.clientWidth < 0.75 * letters) {
      faults.push(`too small: ${round.parentElement.textContent}`);
    }
  }
  for (const lines of document.querySelectorAll('.jp-OutputArea-output pre')) {
    if (getComputedStyle(lines).wordBreak === 'break-all') faults.push('torn words');
  }
  for (const code of document.querySelectorAll('.jp-CodeCell .cm-scroller')) {
    if (code.scrollWidth > code.clientWidth + 1) {
      faults.push(`cut off: ${code.textContent.slice(0, 40)}`);
    }
  }
  for (const view of document.querySelectorAll('.kit-view')) {
    const card = view.getBoundingClientRect();
    const edge = view.clientLeft + parseFloat(getComputedStyle(view).paddingLeft);
    for (const input of view.querySelectorAll('input[type=text]')) {
      if (input.scrollWidth > input.clientWidth) faults.push(`cut off: ${input.value}`);
    }
    const parts = [...view.querySelectorAll(kinds)]
      .filter((part) => part.offsetParent)
      .filter((part) => part.tagName === 'SUMMARY' || !part.closest('details:not([open])'))
      .map((part) => ({
        box: part.getBoundingClientRect(),
        part,
        name: (part.ariaLabel || part.textContent || part.className).slice(0, 40),
        cut: part.scrollWidth > part.clientWidth + 1,
      }));
    parts.forEach(({ box, part, name, cut }, index) => {
      if (cut) faults.push(`cut off: ${name}`);
      if (box.left < card.left || box.right > card.right) faults.push(`out: ${name}`);
      const inwards = box.left - card.left - edge;
      if (inwards > 1.5 && inwards < 5) faults.push(`beside the edge: ${name}`);
      for (const other of parts.slice(index + 1)) {
        if (part.contains(other.part)) continue;
        const across = Math.min(box.right, other.box.right) -
          Math.max(box.left, other.box.left);
        const down = Math.min(box.bottom, other.box.bottom) -
          Math.max(box.top, other.box.top);
        if (across > 1 && down > 1) faults.push(`${name} covers ${other.name}`);
      }
    });
  }
  for (const one of stays) one.style.position = '';
  return faults;
}
