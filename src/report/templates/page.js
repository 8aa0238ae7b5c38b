// Remembers the ticks and counts what is still to do. The page reads and ticks without it.
'use strict';
(() => {
  const key = 'fardel ' + document.documentElement.dataset.key;
  const boxes = Array.from(document.querySelectorAll('input[data-tick]'));
  const counts = Array.from(document.querySelectorAll('[data-left]'));

  const remembered = () => {
    try {
      const kept = JSON.parse(localStorage.getItem(key));
      return new Set(Array.isArray(kept) ? kept : []);
    } catch {
      return new Set();
    }
  };

  const remember = () => {
    const ticked = boxes.filter((box) => box.checked).map((box) => box.dataset.tick);
    try {
      localStorage.setItem(key, JSON.stringify(Array.from(new Set(ticked))));
    } catch {
      // A browser that keeps nothing still ticks.
    }
  };

  const count = () => {
    for (const place of counts) {
      const inside = Array.from(document.getElementById(place.dataset.left).querySelectorAll('input[data-tick]'));
      const open = inside.filter((box) => !box.checked).length;
      const verb = place.dataset.verb;
      const text = open === 0 ? 'nothing left ' + verb : open + ' of ' + inside.length + ' still ' + verb;
      if (place.textContent !== text) place.textContent = text;
    }
  };

  const kept = remembered();
  for (const box of boxes) {
    box.checked = kept.has(box.dataset.tick);
    box.addEventListener('change', () => {
      for (const twin of boxes) if (twin.dataset.tick === box.dataset.tick) twin.checked = box.checked;
      remember();
      count();
    });
  }
  for (const button of document.querySelectorAll('[data-clear]')) {
    button.hidden = false;
    button.addEventListener('click', () => {
      const inside = document.getElementById(button.dataset.clear);
      for (const box of boxes) if (inside.contains(box)) box.checked = false;
      remember();
      count();
    });
  }
  count();
})();
