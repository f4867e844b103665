"""Laws of spraying: the fan, strokes, overspray, the hand."""
