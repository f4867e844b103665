"""Laws of colour: difference, hiding, the let-down panel, spectra."""
