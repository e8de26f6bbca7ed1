"""Output of a setting: what its runs have in common."""

from ozonewright.questions.setting.mean import RunPoint, SettingOutput, Settled, setting_output

__all__ = ["RunPoint", "SettingOutput", "Settled", "setting_output"]
