"""Plain functions of SI numbers, for scalars and arrays alike."""
