// Makes the heads of the table buttons that put its lines in order. Without
// this script the lines stand in the order of the files.
(function () {
  "use strict";
  document.querySelectorAll("table[data-sorts]").forEach(function (table) {
    var heads = table.tHead.rows[0].cells;
    Array.prototype.forEach.call(heads, function (head, column) {
      var button = document.createElement("button");
      button.type = "button";
      button.textContent = head.textContent;
      head.textContent = "";
      head.appendChild(button);
      button.addEventListener("click", function () {
        var down = head.getAttribute("aria-sort") === "ascending";
        var number = head.dataset.sort === "number";
        var body = table.tBodies[0];
        var lines = Array.prototype.slice.call(body.rows);
        lines.sort(function (a, b) {
          var x = a.cells[column].dataset.v, y = b.cells[column].dataset.v;
          var order = number ? Number(x) - Number(y) : x.localeCompare(y);
          return down ? -order : order;
        });
        Array.prototype.forEach.call(heads, function (other) { other.removeAttribute("aria-sort"); });
        head.setAttribute("aria-sort", down ? "descending" : "ascending");
        lines.forEach(function (line) { body.appendChild(line); });
      });
    });
  });
})();
