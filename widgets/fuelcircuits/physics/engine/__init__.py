"""The engine as an air pump: demand, torque, and the air path to it."""
