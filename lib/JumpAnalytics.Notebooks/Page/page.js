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
  let library = null;
  window.jumpDraw = async () => {
    library = library || unpack();
    const plotly = await library;
    for (const place of document.querySelectorAll('.ja-plot:not([data-drawn])')) {
      place.setAttribute('data-drawn', '');
      const figure = JSON.parse(place.nextElementSibling.textContent);
      place.textContent = '';
      await plotly.newPlot(place, figure.data, figure.layout, { responsive: true, displayModeBar: false });
    }
  };
  window.addEventListener('beforeprint', async () => {
    const plotly = await library;
    if (plotly) { document.querySelectorAll('.ja-plot[data-drawn]').forEach(p => plotly.Plots.resize(p)); }
  });
})();
