"""Salt moving through meat: modes of a shape, their exchange with a bath, stage after stage."""
