"""From where on a truck a thing is reached.

Takes in nothing; gives out the closed list of places.
Refuses places that a driver cannot be sent to: "under the step" is for the text beside it.
"""

REACHED = {
    "cab": "from the driver's seat",
    "under_hood": "under the hood",
    "left_front": "at the left front",
    "right_front": "at the right front",
    "left_side": "on the left side",
    "right_side": "on the right side",
    "left_rear": "at the left rear",
    "right_rear": "at the right rear",
}
"""Where a driver stands to reach a thing; left and right as seen from the driver's seat."""
