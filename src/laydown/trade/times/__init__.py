"""What takes time by rule: bake, cooling gate, pot life, recoat clocks."""
