// The theme's worker keeps its words in a tree and takes nodes for the same if these texts are. Its own text runs
// letters and numbers of nodes together, so with digits for letters two nodes may look the same, and then a search
// fails.
lunr.TokenSet.prototype.toString = function () {
  const edges = Object.keys(this.edges).sort();
  return (this.final ? "1" : "0") + edges.map((letter) => `${letter}${this.edges[letter].id};`).join("");
};
