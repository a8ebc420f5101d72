// Draws every figure of the page that is not drawn yet. The chart library is unpacked once from the text at the end.
(function () {
  if (window.jumpDraw) { return; }
  const unpack = async () => {
    const bytes = Uint8Array.from(atob(window.jumpChartLibrary), c => c.charCodeAt(0));
    const source = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).text();
    const module = { exports: {} };
    new Function('module', 'exports', 'define', source).call(window, module, module.exports, undefined);
    return module.exports.newPlot ? module.exports : window.Plotly;
  };
  // The colours of figures on a dark page; only a page that says so follows the reader's choice, since a notebook has a theme of its own.
  const night = {
    '#0b5394': '#7db4ec', '#c65a00': '#f29b52', '#5f6b76': '#a7b3be', '#d9dee3': '#3a434c', '#1d252c': '#e4e9ed', '#ffffff': '#161b20',
    'rgba(255,255,255,1)': '#161b20', 'rgba(11,83,148,': 'rgba(125,180,236,', 'rgba(198,90,0,': 'rgba(242,155,82,', 'rgba(95,107,118,': 'rgba(167,179,190,'
  };
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  let printing = false;
  const read = place => {
    let text = place.nextElementSibling.textContent;
    if (document.documentElement.dataset.scheme === 'reader' && dark.matches && !printing) {
      for (const [day, colour] of Object.entries(night)) { text = text.replaceAll(day, colour); }
    }
    return JSON.parse(text);
  };
  let library = null;
  window.jumpLibrary = () => library = library || unpack();
  window.jumpDraw = async () => {
    const plotly = await window.jumpLibrary();
    for (const place of document.querySelectorAll('.ja-plot:not([data-drawn])')) {
      place.setAttribute('data-drawn', '');
      const figure = read(place);
      place.textContent = '';
      await plotly.newPlot(place, figure.data, figure.layout, { responsive: true, displayModeBar: false });
    }
  };
  const again = async () => {
    const plotly = await library;
    if (!plotly) { return; }
    for (const place of document.querySelectorAll('.ja-plot[data-drawn]')) {
      const figure = read(place);
      plotly.react(place, figure.data, figure.layout, { responsive: true, displayModeBar: false });
      plotly.Plots.resize(place);
    }
  };
  dark.addEventListener('change', again);
  window.addEventListener('beforeprint', () => { printing = true; again(); });
  window.addEventListener('afterprint', () => { printing = false; again(); });
})();
