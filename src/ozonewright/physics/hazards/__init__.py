"""What may hurt: ozone, oxygen and vapour in a room, and what is behind the last bottle."""
