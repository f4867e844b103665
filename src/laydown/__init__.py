"""Plans a three-stage waterborne refinish on a whole car or van side."""
