coatwright finishes two-part-urethane --units us
