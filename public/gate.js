// Runs while the page is still being read, before the first paint: cautions already read in this job start folded.
(function () {
  var read = '';
  try {
    read = ' ' + (sessionStorage.getItem('halfsplit.cautions-read') || '') + ' ';
  } catch (refused) {
    return;
  }
  document.querySelectorAll('.caution.stop, .caution.danger').forEach(function (box) {
    if (read.indexOf(' ' + box.dataset.caution + ' ') < 0) return;
    box.classList.add('read');
    box.querySelector('details').open = false;
  });
})();
