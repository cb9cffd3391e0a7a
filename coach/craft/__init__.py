"""The craft itself: stitches, fabric, proof and steps. Standard library only, no input or output."""
