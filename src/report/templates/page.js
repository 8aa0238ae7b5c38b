// Remembers the ticks, folds what is ticked, counts what is left. The page reads, unfolds and ticks without it.
'use strict';
(() => {
  const FOLD_AFTER = 400; // ms: a second tap by mistake finds the same row
  const UNDO_FOR = 8000; // ms
  const boxes = Array.from(document.querySelectorAll('input[data-tick]'));
  const counts = Array.from(document.querySelectorAll('[data-left]'));
  const lists = Array.from(document.querySelectorAll('.ticks'));
  const keyOf = (box) => 'fardel ' + box.closest('[data-key]').dataset.key;
  const rowOf = (box) => box.closest('li');
  const nameOf = (box) => {
    const parts = Array.from(box.closest('label').querySelector('.what').childNodes);
    return parts.filter((part) => part.nodeName !== 'EM').map((part) => part.textContent).join('').trim();
  };

  const remembered = (key) => {
    try {
      const kept = JSON.parse(localStorage.getItem(key));
      return new Set(Array.isArray(kept) ? kept : []);
    } catch {
      return new Set();
    }
  };

  const remember = (box) => {
    const kept = remembered(keyOf(box));
    if (box.checked) kept.add(box.dataset.tick);
    else kept.delete(box.dataset.tick);
    try {
      localStorage.setItem(keyOf(box), JSON.stringify(Array.from(kept)));
    } catch {
      // A browser that keeps nothing still ticks.
    }
  };

  const weight = (place, inside) => {
    if (!place.dataset.whole) return '';
    const grams = inside.filter((box) => box.checked).reduce((sum, box) => sum + Number(box.dataset.grams || 0), 0);
    return ', ' + (grams * Number(place.dataset.perGram)).toFixed(1) + ' of ' + place.dataset.whole;
  };

  const count = () => {
    for (const place of counts) {
      const inside = Array.from(document.getElementById(place.dataset.left).querySelectorAll('input[data-tick]'));
      const open = inside.filter((box) => !box.checked).length;
      const of = open < inside.length ? ' of ' + inside.length : '';
      const told = open === 0 ? 'all ' + place.dataset.done : open + of + ' ' + place.dataset.verb;
      const text = told + weight(place, inside);
      if (place.textContent !== text) place.textContent = text;
    }
    for (const list of lists) {
      const done = list.querySelectorAll('.done').length;
      const toggle = list.nextElementSibling;
      const shown = list.classList.contains('all');
      toggle.hidden = done === 0;
      toggle.textContent = shown ? 'Fold away what is ticked' : 'Show what is ticked (' + done + ')';
      toggle.setAttribute('aria-expanded', String(shown));
    }
  };

  // Rows that are ticked fold away; whoever is on such a row goes on to the next one.
  const fold = (box) => {
    const row = rowOf(box);
    row.classList.toggle('done', box.checked);
    count();
    const list = row.closest('.ticks');
    if (!box.checked || list.classList.contains('all') || document.activeElement !== box) return;
    const next = list.querySelector('li:not(.done) input') || list.nextElementSibling;
    next.focus({ preventScroll: true });
  };

  const undo = document.createElement('div');
  undo.className = 'undo';
  undo.innerHTML = '<p role="status"></p><button type="button">Undo</button>';
  undo.hidden = true;
  let last = [];
  let timer = 0;
  const hide = () => {
    undo.hidden = true;
    last = [];
  };
  const offer = (box) => {
    last.push(box);
    undo.hidden = false;
    const many = last.length > 1 ? ' and ' + (last.length - 1) + ' before it' : '';
    undo.firstChild.textContent = nameOf(box) + many + ': ticked';
    clearTimeout(timer);
    timer = setTimeout(hide, UNDO_FOR);
  };
  const set = (box, checked) => {
    for (const twin of boxes) {
      if (twin.dataset.tick === box.dataset.tick && keyOf(twin) === keyOf(box)) twin.checked = checked;
    }
    remember(box);
  };

  const unfold = (element) => {
    for (let own = element; own; own = own.parentElement) if (own.tagName === 'DETAILS') own.open = true;
  };

  for (const list of lists) {
    const toggle = document.createElement('button');
    toggle.type = 'button';
    toggle.className = 'ticked';
    toggle.addEventListener('click', () => {
      list.classList.toggle('all');
      count();
    });
    list.after(toggle);
  }
  for (const box of boxes) {
    box.checked = remembered(keyOf(box)).has(box.dataset.tick);
    rowOf(box).classList.toggle('done', box.checked);
    box.addEventListener('change', () => {
      set(box, box.checked);
      count();
      if (box.checked) offer(box);
      setTimeout(() => fold(box), box.checked ? FOLD_AFTER : 0);
    });
  }
  undo.lastChild.addEventListener('click', () => {
    const box = last.pop();
    const more = last;
    if (!box) return;
    set(box, false);
    fold(box);
    unfold(box);
    box.focus();
    if (more.length === 0) hide();
    else offer(more.pop());
  });
  if (boxes.length > 0) document.body.append(undo);

  // Another page of the same trip, in another window.
  addEventListener('storage', () => {
    for (const box of boxes) {
      box.checked = remembered(keyOf(box)).has(box.dataset.tick);
      rowOf(box).classList.toggle('done', box.checked);
    }
    count();
  });

  const arrive = () => {
    const target = location.hash.length > 1 && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!target) return;
    unfold(target);
    target.scrollIntoView();
  };
  addEventListener('hashchange', arrive);
  arrive();

  // Paper cannot be unfolded.
  let opened = [];
  addEventListener('beforeprint', () => {
    opened = Array.from(document.querySelectorAll('details.paper:not([open])'));
    for (const own of opened) own.open = true;
  });
  addEventListener('afterprint', () => {
    for (const own of opened) own.open = false;
    opened = [];
  });
  count();
})();
