import { create } from 'zustand';

/** A weather file of the user's own, as long as the page is open: the same year for Season and Repairs. */
export type Weather = { readonly name: string; readonly text: string };

export const useWeather = create<{ readonly weather: Weather | undefined }>(() => ({ weather: undefined }));

export const setWeather = (weather: Weather | undefined): void => useWeather.setState({ weather });
