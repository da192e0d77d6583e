"""Salt in meat held against Crank's series, an integral of Duhamel and what must hold of any diffusion."""
