// The theme's worker keeps its words in a tree and takes nodes for the same if these texts are. Its own text runs
// letters and numbers of nodes together, so with digits for letters two nodes may look the same, and then a search
// fails.
lunr.TokenSet.prototype.toString = function () {
  const edges = Object.keys(this.edges).sort();
  return (this.final ? "1" : "0") + edges.map((letter) => `${letter}${this.edges[letter].id};`).join("");
};

// Of every word that is written the theme's worker cuts off what is no letter at its ends, and knows English letters
// alone: "café" would be "caf", and nobody who types it whole would find it.
{
  const trimmer = (token) => token.update((word) => word.replace(/^[^\p{L}\p{M}\p{N}_]+|[^\p{L}\p{M}\p{N}_]+$/gu, ""));
  trimmer.label = lunr.trimmer.label;
  lunr.trimmer = trimmer;
  lunr.Pipeline.registeredFunctions[trimmer.label] = trimmer;
}
