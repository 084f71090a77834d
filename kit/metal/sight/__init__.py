"""What an eye makes of steel and of heat: tones, fine lines, glow and its names."""
