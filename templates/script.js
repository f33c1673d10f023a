'use strict';
(() => {
  const root = document.documentElement;
  const themes = document.querySelector('.themes');
  const remember = (name) => {
    try {
      localStorage.setItem('nightledger-theme', name);
    } catch {
      /* a page without storage forgets */
    }
  };
  const recall = () => {
    try {
      return localStorage.getItem('nightledger-theme');
    } catch {
      return null;
    }
  };
  const show = (name) => {
    root.dataset.theme = name;
    for (const button of themes.querySelectorAll('button'))
      button.setAttribute('aria-pressed', String(button.dataset.theme === name));
  };
  const first = recall();
  if (first === 'light' || first === 'dark' || first === 'red') show(first);
  themes.hidden = false;
  themes.addEventListener('click', (event) => {
    const name = event.target.closest('button')?.dataset.theme;
    if (name) {
      show(name);
      remember(name);
    }
  });

  // A phone folds what is not read first; a window that grows has it all again.
  const narrow = matchMedia('(max-width: 760px)');
  const tuck = (open) => {
    for (const one of document.querySelectorAll('details.tuck')) one.open = open;
  };
  if (narrow.matches) tuck(false);
  narrow.addEventListener('change', () => {
    if (!narrow.matches) tuck(true);
  });

  const figure = document.querySelector('.twin');
  const readout = document.querySelector('.readout');
  const tell = (event) => {
    const title = event.target.closest('g')?.querySelector('title');
    if (title) {
      readout.hidden = false;
      readout.textContent = title.textContent;
    }
  };
  figure?.addEventListener('pointerover', tell);
  figure?.addEventListener('click', tell);

  for (const table of document.querySelectorAll('table.frames')) {
    const filter = document.createElement('p');
    filter.className = 'filter';
    filter.innerHTML =
      '<label><input type="checkbox"> only what is not kept</label> <label>containing <input type="search"></label>';
    const [harmed, text] = filter.querySelectorAll('input');
    table.parentElement.before(filter);
    filter.addEventListener('input', () => {
      const wanted = text.value.trim().toLowerCase();
      for (const row of table.querySelectorAll('tbody tr:not(.group)'))
        row.hidden =
          (harmed.checked && row.cells[0].textContent.trim() === 'kept') ||
          !row.textContent.toLowerCase().includes(wanted);
    });
  }

  const key = (row, index) => {
    const cell = row.cells[index];
    const text = cell.textContent.trim();
    const value = Number(cell.dataset.value ?? text);
    return text === '' || Number.isNaN(value) ? text : value;
  };
  const compare = (a, b) =>
    typeof a === 'number' && typeof b === 'number'
      ? a - b
      : typeof a === 'number'
        ? -1
        : typeof b === 'number'
          ? 1
          : a.localeCompare(b, 'en', { numeric: true });
  for (const table of document.querySelectorAll('table[data-sortable]')) {
    [...table.tHead.rows]
      .at(-1)
      .querySelectorAll('th')
      .forEach((head, index) => {
        const button = document.createElement('button');
        button.type = 'button';
        button.append(...head.childNodes);
        head.append(button);
        button.addEventListener('click', () => {
          const down = head.getAttribute('aria-sort') === 'ascending';
          for (const other of table.querySelectorAll('thead th')) other.removeAttribute('aria-sort');
          head.setAttribute('aria-sort', down ? 'descending' : 'ascending');
          for (const body of table.tBodies) {
            const rows = [...body.rows].filter((row) => row.className !== 'group');
            body.append(...rows.sort((a, b) => compare(key(a, index), key(b, index)) * (down ? -1 : 1)));
          }
        });
      });
  }
})();
