// Rewrites the amounts for the number chosen. Every wording is already in the
// page, worked out when it was written; this only picks one.
(function () {
  "use strict";
  var choice = document.getElementById("scale");
  choice.parentElement.hidden = false;
  choice.addEventListener("change", function () {
    document.querySelectorAll("[data-alt]").forEach(function (place) {
      place.textContent = JSON.parse(place.dataset.alt)[choice.selectedIndex];
    });
  });
  // A page that comes back from the browser's memory may show another choice
  // than the amounts it was written with.
  window.addEventListener("pageshow", function () {
    choice.dispatchEvent(new Event("change"));
  });
})();
